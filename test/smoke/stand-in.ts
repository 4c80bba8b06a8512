/**
 * Stands for the installed program where there is no runtime: the built shell on the double of Electron, with the words
 * and signals of the real one. `GAMBREL_STAND_IN` makes it behave badly: `deaf` does not end, `crash` ends at once,
 * `untidy` leaves a file beside the book.
 */
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { boot } from '../shell/boot.ts';

const words = process.argv.slice(2);
const own =
  words.find((word) => word.startsWith('--user-data-dir='))?.slice('--user-data-dir='.length) ?? '.';
const behaves = process.env['GAMBREL_STAND_IN'];
if (behaves === 'crash') process.exit(3);

mkdirSync(join(own, 'logs'), { recursive: true });
const shell = await boot({
  args: words,
  switches: words.filter((word) => word.startsWith('--')).map((word) => word.slice(2)),
  prepare: (folder) => symlinkSync(join(own, 'logs'), join(folder, 'logs'), 'junction'),
});
let asked = false;
process.on('SIGTERM', () => (asked = behaves !== 'deaf'));
setInterval(() => {
  if (asked) shell.windows[0]?.close();
  if (shell.ended === null) return;
  if (behaves === 'untidy') writeFileSync(`${words.at(-1)}-wal`, '');
  process.exit(shell.ended);
}, 50);
