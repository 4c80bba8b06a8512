/** What the preload gives a desktop window, and nothing else. */
export interface PreloadApi {
  /**
   * Asks the shell for a message port to the desk. The port cannot cross the preload as a value, so it arrives
   * as a `message` event of the window, from the window itself, with `DESK_PORT_CHANNEL` as its data.
   */
  askForDesk(): void;
}

declare global {
  interface Window {
    gambrel?: PreloadApi;
  }
}
