/** Files that a page saves: Electron asks where, with the options that the shell set before. */
import { checkOptions, once, strict, StrictEmitter } from './strict.ts';

export type DownloadState = 'completed' | 'cancelled' | 'interrupted';

class DownloadItemDouble extends StrictEmitter {
  dialog: { title?: string; defaultPath?: string } = {};
  readonly #name: string;
  readonly #path: string;

  constructor(name: string, path: string) {
    super('DownloadItem', ['done', 'updated']);
    this.#name = name;
    this.#path = path;
  }
  getFilename(): string {
    return this.#name;
  }
  getSavePath(): string {
    return this.#path;
  }
  setSaveDialogOptions(options: { title?: string; defaultPath?: string }): void {
    checkOptions('setSaveDialogOptions', options, [
      'title',
      'defaultPath',
      'buttonLabel',
      'filters',
      'message',
    ]);
    this.dialog = structuredClone(options);
  }
}

type Listener = (event: object, item: DownloadItemDouble, contents: unknown) => void;

export function downloadsDouble() {
  const listener = once<Listener>('will-download');
  return {
    onDownload: listener.set,
    /** The page saves a file and the person answers; returns what the dialog was opened with. */
    download(name: string, path: string, state: DownloadState): { title?: string; defaultPath?: string } {
      const item = new DownloadItemDouble(name, path);
      listener.handler()({}, strict('item', item), null);
      item.emit('done', {}, state);
      return item.dialog;
    },
  };
}
