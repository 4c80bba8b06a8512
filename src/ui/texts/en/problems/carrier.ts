/** Messages about a lost connection to the desk, and incomplete calls. */
import type { Wording } from '../../wording.ts';

const NO_ACCESS =
  'This window has no access to the book. In the terminal window where Gambrel was started, press Enter to open a new one, or start Gambrel again.';
const NOT_WHOLE =
  'That did not arrive whole, and nothing was changed. Try again; if it stays, reload the page.';
const OLD_WINDOW =
  'This window and its desk are of different versions. Close every Gambrel window and start it again.';

const shared: Readonly<Record<string, readonly string[]>> = {
  [NO_ACCESS]: ['desk.no-session', 'session.unknown', 'session.wrong-code', 'session.too-many', 'session.other-account', 'request.wrong-host', 'request.wrong-origin'],
  [NOT_WHOLE]: ['request.malformed', 'request.not-json', 'request.too-slow', 'input.not-plain'],
  [OLD_WINDOW]: ['call.unknown', 'request.wrong-method', 'request.too-long'],
}; // prettier-ignore

export const carrierWording: Readonly<Record<string, Wording>> = {
  ...Object.fromEntries(
    Object.entries(shared).flatMap(([sentence, codes]) => codes.map((code) => [code, () => sentence])),
  ),
  'desk.already': () => 'This is being kept already: wait for it, and look before you press again.',
  'desk.gone': () =>
    'The window lost touch with the record book. What was kept is safe. Close Gambrel and start it again.',
  'request.too-many': () =>
    'Too many windows are open at once. Close some, and this one goes on by itself in a few seconds.',
  'request.too-large': () => 'That is too much to keep at once. Shorten the notes and try again.',
};
