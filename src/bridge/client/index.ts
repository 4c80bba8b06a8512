/** Connects the window to the desk: a message port in the desktop app, HTTP in a browser. */
import type { Bridge } from '../contract.ts';
import { DESK_PORT_CHANNEL } from '../wire.ts';
import { bridgeOverHttp } from './http.ts';
import { shareSession } from './other-windows.ts';
import { bridgeOverPort } from './port.ts';
import type { PreloadApi } from './preload-api.ts';

/**
 * Selects and opens the carrier. Call it once, before the router starts, because it removes the code from the
 * address. Never rejects; an unreachable desk shows in the answers of the calls.
 */
export async function connect(): Promise<Bridge> {
  return window.gambrel ? bridgeOverPort(await askForPort(window.gambrel)) : overHttp();
}

function askForPort(preload: PreloadApi): Promise<MessagePort> {
  return new Promise((resolve) => {
    const listen = (event: MessageEvent) => {
      const [port] = event.ports;
      if (event.source !== window || event.data !== DESK_PORT_CHANNEL || !port) return;
      window.removeEventListener('message', listen);
      resolve(port);
    };
    window.addEventListener('message', listen);
    preload.askForDesk();
  });
}

function overHttp(): Bridge {
  const code = codeIn(location.hash);
  if (code !== null) history.replaceState(null, '', '#/');
  // A new address pasted into an open window changes only its fragment: restart with the new code. The event has
  // the address, because the router may have replaced the fragment by now.
  window.addEventListener('hashchange', ({ newURL }) => {
    const { hash } = new URL(newURL);
    if (codeIn(hash) === null) return;
    history.replaceState(null, '', hash);
    location.reload();
  });
  let seen = new AbortController();
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) seen.abort();
    else seen = new AbortController();
  });
  return bridgeOverHttp({
    fetch: (input, init) => fetch(input, init),
    store: sessionStorage,
    code,
    askOthers: shareSession(sessionStorage),
    seen: () => (document.hidden ? once(document, 'visibilitychange') : Promise.resolve()),
    hidden: () => seen.signal,
    wait: (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds)),
  });
}

function codeIn(hash: string): string | null {
  return /^#code=([\w-]+)$/.exec(hash)?.[1] ?? null;
}

function once(target: EventTarget, name: string): Promise<void> {
  return new Promise((resolve) => target.addEventListener(name, () => resolve(), { once: true }));
}
