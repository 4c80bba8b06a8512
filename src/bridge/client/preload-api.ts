/** What the preload gives a desktop window, and nothing else. */
export interface PreloadApi {
  /**
   * Asks the shell for a message port to the desk. The port cannot cross the preload as a value, so it arrives
   * as a `message` event of the window, from the window itself, with `DESK_PORT_CHANNEL` as its data.
   */
  askForDesk(): void;
  /**
   * Prints what the window shows on the printer that was chosen for labels; the shell says what goes wrong.
   * @param paper what the printer feeds, millimetres
   */
  printLabels(paper: { width: number; height: number }): void;
  /** Of the runtime that the window runs in. */
  versions: Readonly<Record<'electron' | 'chromium' | 'node', string>>;
}

declare global {
  interface Window {
    gambrel?: PreloadApi;
  }
}
