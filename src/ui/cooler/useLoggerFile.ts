import { ref, shallowRef } from 'vue';
import type { CallInput, LogPreview, Problem } from '../../bridge/contract.ts';
import { uploadFile } from '../files/file-transfer.ts';
import { call } from '../link/bridge.ts';
import { toast } from '../parts/index.ts';
import { text } from '../../words/compiled/window/cooler.ts';
import { useCall } from '../calls/useCall.ts';
import { useConfirm } from '../calls/useConfirm.ts';

type How = Pick<CallInput<'coolers.previewLog'>, 'degrees' | 'dates'>;

/** The import of one logger file: select, preview, import, undo. */
export function useLoggerFile(coolerId: () => number) {
  const preview = shallowRef<LogPreview | null>(null);
  const problem = shallowRef<Problem | null>(null);
  const reading = ref(false);
  const save = useCall('coolers.importLog');
  const doubt = useConfirm(save.problem, () => preview.value, importFile);
  const undoCall = useCall('coolers.undoImport');
  let upload: number | null = null;

  async function refresh(how: How = {}): Promise<void> {
    if (upload === null) return;
    const answer = await call('coolers.previewLog', { coolerId: coolerId(), upload, ...how });
    problem.value = answer.ok ? null : answer.problem;
    preview.value = answer.ok ? answer.value : null;
    save.clear();
  }

  /** The last selected file, so that an undone import can be repeated. */
  let chosen: File | null = null;

  async function choose(file: File): Promise<void> {
    chosen = file;
    reading.value = true;
    preview.value = null;
    const handed = await uploadFile(file);
    problem.value = handed.ok ? null : handed.problem;
    upload = handed.ok ? handed.value.upload : null;
    await refresh();
    reading.value = false;
  }

  /** Parses the file with a different layout than the detected one. */
  function change(how: How): void {
    if (preview.value) void refresh({ degrees: preview.value.degrees, dates: preview.value.dates, ...how });
  }

  async function importFile(): Promise<void> {
    if (!preview.value || upload === null) return;
    const { degrees, dates, name } = preview.value;
    const answer = await save.run({
      coolerId: coolerId(),
      upload,
      degrees,
      dates,
      confirmed: doubt.confirmed(),
    });
    if (!answer.ok) return;
    upload = null;
    preview.value = null;
    toast(text.done({ n: answer.value.readings }), () => void undo(answer.value.id, name));
  }

  async function undo(id: number, name: string): Promise<void> {
    const file = chosen;
    if ((await undoCall.run({ id })).ok)
      toast(text.undone({ name }), file ? () => void choose(file) : undefined);
  }

  return {
    preview,
    problem,
    reading,
    save,
    undoCall,
    choose,
    change,
    importFile,
    doubt,
    undo,
  };
}
