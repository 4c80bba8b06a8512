/** The system's dialogs: records them and gives the prepared answers in order. */
import { checkOptions, strict } from './strict.ts';

interface AskedDialog {
  type: string;
  message: string;
  detail?: string;
  buttons: string[];
  cancelId?: number;
  normalizeAccessKeys?: boolean;
}

/** A file or folder dialog. */
interface AskedFile {
  kind: 'open' | 'save';
  title: string;
  defaultPath?: string;
  filters?: { name: string; extensions: string[] }[];
  properties?: string[];
}

const MESSAGE_OPTIONS = [
  'type',
  'title',
  'message',
  'detail',
  'buttons',
  'defaultId',
  'cancelId',
  'noLink',
  'normalizeAccessKeys',
];
const OPEN_OPTIONS = ['title', 'defaultPath', 'filters', 'properties'];
const SAVE_OPTIONS = ['title', 'defaultPath', 'filters'];
const PROPERTIES = ['openFile', 'openDirectory', 'createDirectory'];

/**
 * @param visible the visible windows
 * @param refuses the error with which message boxes fail, if any
 */
export function dialogsDouble(isReady: () => boolean, visible: () => readonly object[], refuses?: Error) {
  /** Open boxes without an answer. */
  const standing: ((response: number) => void)[] = [];
  const record = {
    /** The shown boxes, with their buttons as displayed. */
    dialogs: [] as AskedDialog[],
    /** `stand`: the number of following boxes that stay open until the test answers them. */
    boxes: { stand: 0 },
    /** Answers to dialogs with a choice, in order. */
    answers: [] as number[],
    files: [] as AskedFile[],
    /** Paths selected in file dialogs, in order; null: the person cancels. */
    picks: [] as (string | null)[],
  };
  function pick(
    kind: AskedFile['kind'],
    over: unknown,
    asked: AskedFile,
    known: readonly string[],
  ): string | null {
    if (!isReady()) throw new Error('dialog module can only be used after app is ready');
    if (typeof over !== 'object' || !over) throw new Error(`A dialog to ${kind} stands over its window`);
    if ((over as { destroyed?: boolean }).destroyed) throw new TypeError('Object has been destroyed');
    checkOptions(`a dialog to ${kind}`, asked, known);
    const wrong = (asked.properties ?? []).filter((property) => !PROPERTIES.includes(property));
    if (wrong.length > 0) throw new Error(`There is no property ${wrong.join(', ')}`);
    record.files.push({ ...structuredClone(asked), kind });
    const path = record.picks.shift();
    if (path === undefined) throw new Error(`Nobody picks a file: ${asked.title}`);
    return path;
  }
  const dialog = strict('dialog', {
    async showMessageBox(first: AskedDialog | object, second?: AskedDialog) {
      const over = second && first;
      const asked = second ?? (first as AskedDialog);
      if (over && !visible().includes(over))
        throw new Error(`Nobody can answer over a window that is not seen: ${asked.message}`);
      // On macOS the box would block the whole main process, which a double in one process cannot simulate.
      if (!over && process.platform === 'darwin' && visible().length > 0)
        throw new Error(`A box without a window stops everything on macOS: ${asked.message}`);
      checkOptions('showMessageBox', asked, MESSAGE_OPTIONS);
      if (!isReady()) throw new Error('dialog module can only be used after app is ready');
      if (refuses) throw refuses;
      const read = asked.buttons.map((label) => asRead(label, asked.normalizeAccessKeys === true));
      record.dialogs.push({ ...structuredClone(asked), buttons: read });
      if (record.boxes.stand > 0) {
        record.boxes.stand -= 1;
        const late = await new Promise<number>((resolve) => standing.push(resolve));
        return { response: late, checkboxChecked: false };
      }
      const response = asked.buttons.length === 1 ? 0 : record.answers.shift();
      if (response === undefined) throw new Error(`Nobody answers: ${asked.message}`);
      if (response >= asked.buttons.length) throw new Error(`There is no button ${response}`);
      return { response, checkboxChecked: false };
    },
    async showOpenDialog(over: unknown, asked: AskedFile) {
      const path = pick('open', over, asked, OPEN_OPTIONS);
      return { canceled: path === null, filePaths: path === null ? [] : [path] };
    },
    async showSaveDialog(over: unknown, asked: AskedFile) {
      const path = pick('save', over, asked, SAVE_OPTIONS);
      return { canceled: path === null, filePath: path ?? '' };
    },
  });
  return { dialog, record, answerStanding: (response: number) => standing.shift()?.(response) };
}

/**
 * The label of a button as displayed. On Linux an underscore, on Windows an ampersand marks an access key; doubled
 * it is literal. macOS has no access keys.
 */
function asRead(label: string, normalized: boolean): string {
  const mark = { linux: '_', win32: '&' }[process.platform as string];
  const given = normalized ? normalize(label, mark) : label;
  return mark ? given.replace(new RegExp(`${mark}(.)`, 'g'), '$1') : given;
}

/** What Electron makes of a label whose access key is marked by an ampersand. */
function normalize(label: string, mark: string | undefined): string {
  if (mark === '&') return label;
  const own = mark ? label.replaceAll(mark, mark + mark) : label;
  return own.replace(/&(&?)/g, (_all, second: string) => second || (mark ?? ''));
}
