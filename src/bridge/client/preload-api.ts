/** The API that the preload exposes to a desktop window. */
export interface PreloadApi {
  /**
   * Requests a message port to the desk from the shell. The port cannot cross the preload as a value, so it arrives
   * as a `message` event of the window, from the window itself, with `DESK_PORT_CHANNEL` as its data.
   */
  askForDesk(): void;
  /**
   * Prints the window's labels on the printer chosen for labels; the shell reports errors.
   * @param paper size of the printer's paper, millimetres
   */
  printLabels(paper: { width: number; height: number }): void;
  /** Says the window's language, a code of the program's languages, in which menus and dialogs speak from then on. */
  speak(language: string): void;
  /** Versions of the runtime. */
  versions: Readonly<Record<'electron' | 'chromium' | 'node', string>>;
}

declare global {
  interface Window {
    gambrel?: PreloadApi;
  }
}
