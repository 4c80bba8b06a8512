import { computed, ref, shallowRef } from 'vue';
import type {
  ImportField,
  ImportKind,
  CallInput,
  Problem,
  SheetLayout,
  SheetPreview,
} from '../../bridge/contract.ts';
import { call } from '../link/bridge.ts';
import { toast } from '../parts/index.ts';
import { text } from '../../words/compiled/window/books/import.ts';
import { useCall } from '../calls/useCall.ts';
import { uploadFile } from '../files/file-transfer.ts';

/** What was chosen about a file, kept for the next one of that kind with the same headings. */
interface Chosen {
  kind: ImportKind;
  headings: string;
  layout: SheetLayout;
}

/** The import of one file: upload, preview after every change, import, undo. */
export function useImport() {
  const kind = ref<ImportKind>('animals');
  const upload = ref<number | null>(null);
  const preview = shallowRef<SheetPreview | null>(null);
  const problem = shallowRef<Problem | null>(null);
  const reading = ref(false);
  const runCall = useCall('import.run');
  const undoCall = useCall('import.undo');
  let requests = 0;
  let kept: Chosen | null = null;

  /** @returns the preview, unless the file cannot be read or was asked for again meanwhile */
  async function refresh(layout?: SheetLayout): Promise<SheetPreview | null> {
    if (upload.value === null) return null;
    const request = ++requests;
    reading.value = true;
    const answer = await call('import.preview', {
      upload: upload.value,
      kind: kind.value,
      ...(layout && { layout }),
    });
    if (request !== requests) return null;
    reading.value = false;
    problem.value = answer.ok ? null : answer.problem;
    if (answer.ok) preview.value = answer.value;
    else if (!layout) preview.value = null;
    runCall.clear();
    return answer.ok ? answer.value : null;
  }

  function keep({ headings, layout }: SheetPreview): void {
    kept = { kind: kind.value, headings: JSON.stringify(headings), layout };
  }

  /** The last selected file, so that an undone import can be repeated. */
  let chosen: File | null = null;

  async function choose(file: File): Promise<void> {
    chosen = file;
    reading.value = true;
    preview.value = null;
    problem.value = null;
    const handed = await uploadFile(file);
    reading.value = false;
    if (!handed.ok) {
      problem.value = handed.problem;
      return;
    }
    upload.value = handed.value.upload;
    const read = await refresh();
    // A corrected file, or one whose import was undone.
    if (kept?.kind === kind.value && kept.headings === JSON.stringify(read?.headings))
      await refresh(kept.layout);
  }

  /** Applies the choice immediately, so that a later choice made during loading builds on it. */
  function change(changes: Partial<SheetLayout>): void {
    if (!preview.value) return;
    const layout = { ...preview.value.layout, ...changes };
    preview.value = { ...preview.value, layout };
    keep(preview.value);
    void refresh(layout);
  }

  /** A column can have one field only. */
  function setColumn(field: ImportField, column: number | null): void {
    if (!preview.value) return;
    const remaining = Object.entries(preview.value.layout.columns).filter(
      ([other, at]) => other !== field && at !== column,
    );
    change({ columns: { ...Object.fromEntries(remaining), ...(column !== null && { [field]: column }) } });
  }

  function setAlways(field: ImportField, value: string): void {
    if (!preview.value) return;
    const remaining = Object.entries(preview.value.layout.always).filter(([other]) => other !== field);
    change({ always: { ...Object.fromEntries(remaining), ...(value && { [field]: value }) } });
  }

  function setWord(field: string, word: string, meaning: string): void {
    if (!preview.value || !meaning) return;
    const { words } = preview.value.layout;
    change({ words: { ...words, [field]: { ...words[field], [word]: meaning } } });
  }

  const needsConfirmation = computed(
    () =>
      runCall.problem.value?.kind === 'conflict' ||
      Boolean(preview.value && (preview.value.doubtCount > 0 || preview.value.twice)),
  );

  async function importFile(): Promise<void> {
    if (!preview.value || upload.value === null) return;
    const { layout, name } = preview.value;
    const input: CallInput<'import.run'> = {
      upload: upload.value,
      kind: kind.value,
      layout,
      confirmed: needsConfirmation.value,
    };
    const answer = await runCall.run(input);
    if (!answer.ok) return;
    upload.value = null;
    preview.value = null;
    toast(text.done({ file: name }), () => void undo(answer.value.id, name));
  }

  async function undo(id: number, name: string): Promise<void> {
    const answer = await undoCall.run({ id });
    const file = chosen;
    if (answer.ok) toast(text.undone({ file: name }), file ? () => void choose(file) : undefined);
  }

  function setKind(to: ImportKind): void {
    kind.value = to;
    void refresh();
  }

  return {
    kind,
    setKind,
    preview,
    problem,
    reading,
    choose,
    change,
    setColumn,
    setAlways,
    setWord,
    needsConfirmation,
    importFile,
    undo,
    runCall,
    undoCall,
  };
}
