import { readFileSync, writeFileSync } from 'node:fs';

/** The name of the port that was chosen last; null where there is no note or it does not make sense. */
export function readPortNote(file: string): string | null {
  try {
    const { name } = JSON.parse(readFileSync(file, 'utf8')) as { name?: unknown };
    return typeof name === 'string' && name !== '' ? name : null;
  } catch {
    return null; // never chosen, or a note that somebody else wrote
  }
}

/** Notes a port for next time. A disk that refuses costs the memory, not the scale. */
export function writePortNote(file: string, name: string): void {
  try {
    writeFileSync(file, JSON.stringify({ name }));
  } catch (error) {
    console.error('Gambrel: the port of the scale was not noted.', error);
  }
}
