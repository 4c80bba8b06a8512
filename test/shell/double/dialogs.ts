/** The system's dialogs: what was asked is kept, and answers are given in the order in which the test laid them out. */
import { checkOptions, strict } from './strict.ts';

export interface AskedDialog {
  type: string;
  message: string;
  detail?: string;
  buttons: string[];
  cancelId?: number;
}

/** A dialog that asks for a file or a folder. */
export interface AskedFile {
  kind: 'open' | 'save';
  title: string;
  defaultPath?: string;
  filters?: { name: string; extensions: string[] }[];
  properties?: string[];
}

const MESSAGE_OPTIONS = ['type', 'title', 'message', 'detail', 'buttons', 'defaultId', 'cancelId', 'noLink'];
const OPEN_OPTIONS = ['title', 'defaultPath', 'filters', 'properties'];
const SAVE_OPTIONS = ['title', 'defaultPath', 'filters'];
const PROPERTIES = ['openFile', 'openDirectory', 'createDirectory'];

/** @param refuses what showing a message rejects with, if it fails */
export function dialogsDouble(refuses?: Error) {
  const record = {
    dialogs: [] as AskedDialog[],
    /** Answers to dialogs that have a choice, first come first. */
    answers: [] as number[],
    files: [] as AskedFile[],
    /** Paths that the person picks, first come first; null: they change their mind. */
    picks: [] as (string | null)[],
  };
  function pick(
    kind: AskedFile['kind'],
    over: unknown,
    asked: AskedFile,
    known: readonly string[],
  ): string | null {
    if (typeof over !== 'object' || !over) throw new Error(`A dialog to ${kind} stands over its window`);
    checkOptions(`a dialog to ${kind}`, asked, known);
    const wrong = (asked.properties ?? []).filter((property) => !PROPERTIES.includes(property));
    if (wrong.length > 0) throw new Error(`There is no property ${wrong.join(', ')}`);
    record.files.push({ ...structuredClone(asked), kind });
    const path = record.picks.shift();
    if (path === undefined) throw new Error(`Nobody picks a file: ${asked.title}`);
    return path;
  }
  const dialog = strict('dialog', {
    async showMessageBox(asked: AskedDialog) {
      checkOptions('showMessageBox', asked, MESSAGE_OPTIONS);
      if (refuses) throw refuses;
      record.dialogs.push(structuredClone(asked));
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
  return { dialog, record };
}
