/** Selects the scale's serial port: asked once, by name, and remembered. */
import { session, type SerialPort, type Session } from 'electron';
import { text } from '../src/words/compiled/shell/dialogs.ts';
import { ask, showMessage } from './dialogs.ts';
import { logError } from './log.ts';
import { noted, readNote, writeNote } from './note-file.ts';
import { isOurs } from './protocol.ts';

/** Electron's types omit that a device to be permitted has its name under `name`. */
type NamedPort = Partial<SerialPort> & { name?: string };

/**
 * Lets our window, and no other, use the port of a scale. Call it once, when the app is ready.
 * @param noteFile where the chosen port is stored between starts
 */
export function guardSerial(noteFile: string, ours: Session = session.defaultSession): void {
  ours.on('select-serial-port', (event, ports, contents, answer) => {
    event.preventDefault();
    // Always answered exactly once: the empty answer means none.
    const chosen = isOurs(contents.getURL()) ? choosePort(ports, noteFile) : Promise.resolve('');
    void chosen.then(answer, (error: unknown) => {
      logError('port-not-asked-for', error);
      answer('');
    });
  });
  // With this handler Electron stores no grants: it is called for every port with a number, also right after the
  // choice. Ports without a number are granted until disconnected.
  ours.setDevicePermissionHandler(
    ({ deviceType, origin, device }) =>
      deviceType === 'serial' &&
      isOurs(origin) &&
      nameOf(device as NamedPort) === noted(readNote(noteFile), 'name'),
  );
}

/** The id of the chosen port; empty for none. A single port needs no question. */
async function choosePort(ports: SerialPort[], noteFile: string): Promise<string> {
  const chosen = ports.length === 1 ? ports[0] : await askPort(ports, noted(readNote(noteFile), 'name'));
  if (!chosen) return '';
  writeNote(noteFile, { name: nameOf(chosen) });
  return chosen.portId;
}

/** The one used last is the default. */
async function askPort(ports: SerialPort[], last: string | null): Promise<SerialPort | undefined> {
  if (ports.length === 0) {
    await showMessage('info', text.noPort);
    return undefined;
  }
  const sorted = ports.toSorted((a, b) => Number(nameOf(b) === last) - Number(nameOf(a) === last));
  return sorted[await ask(text.whichPort, [...sorted.map(buttonOf), text.noneOfThese], sorted.length)];
}

/** The name under which Electron requests permission for a port: its display name or else its path. */
function nameOf(port: NamedPort): string {
  return port.name || port.displayName || port.portName || '';
}

function buttonOf(port: SerialPort): string {
  const name = nameOf(port);
  return name.includes(port.portName) ? name : `${name} (${port.portName})`;
}
