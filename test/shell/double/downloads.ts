/** Files that a page saves: Electron shows a dialog with the options that the shell set. */
import { checkOptions, once, strict, StrictEmitter } from './strict.ts';

type DownloadState = 'completed' | 'cancelled' | 'interrupted';

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
    /** Saves a file from the page with the person's answer; returns the options of the dialog. */
    download(name: string, path: string, state: DownloadState): { title?: string; defaultPath?: string } {
      const item = new DownloadItemDouble(name, path);
      listener.handler()({}, strict('item', item), null);
      item.emit('done', {}, state);
      return item.dialog;
    },
  };
}
