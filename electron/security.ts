/** Restrictions of a window: no navigation to other pages, no other windows, no network, no permissions. */
import { app, session, type Event, type Session } from 'electron';
import { isOurs } from './protocol.ts';

/** The only permission of a window: the serial port of a scale. */
const ALLOWED_RIGHT = 'serial';

/** Applies to every window. Call it before the first one is created. */
export function guardWindows(): void {
  app.on('web-contents-created', (_event, contents) => {
    const stayHome = (event: Event<{ url: string }>) => {
      if (!isOurs(event.url)) event.preventDefault();
    };
    contents.on('will-navigate', stayHome);
    contents.on('will-redirect', stayHome);
    contents.on('will-frame-navigate', stayHome);
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  });
}

/** Applies to the session shared by all windows. Call it when the app is ready. */
export function guardSession(ours: Session = session.defaultSession): void {
  ours.setPermissionRequestHandler((_contents, right, answer, details) =>
    answer(right === ALLOWED_RIGHT && isOurs(details.requestingUrl)),
  );
  ours.setPermissionCheckHandler((_contents, right, origin) => right === ALLOWED_RIGHT && isOurs(origin));
  ours.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !staysInside(details.url) }));
}

/** Our own files, and files that the window makes for saving (`blob:`, `data:`). Nothing else: no network. */
function staysInside(address: string): boolean {
  const url = URL.parse(address);
  if (url?.protocol === 'data:') return true;
  return isOurs(url?.protocol === 'blob:' ? url.pathname : address);
}
