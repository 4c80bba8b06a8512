/**
 * A desk with its line for stations, to be killed: `node desk-process.ts BOOK PORT`. It makes the calls that its parent
 * sends, as the shop's own window would, and says how its line is.
 */
import { followStationSettings } from '../../../src/bridge/stations/follow.ts';
import type { Answer } from '../../../src/desk/contract/problem.ts';
import type { StationLineState } from '../../../src/desk/contract/stations.ts';
import { openDesk } from '../../../src/desk/desk.ts';
import { openStationDoor } from '../../../src/desk/station-door.ts';

/** Parent to desk, and desk to parent. */
export interface AskDesk {
  id: number;
  name: string;
  input: unknown;
}
export type FromDesk = { id: number; answer: Answer<unknown> } | { line: StationLineState };

const [bookPath = ''] = process.argv.slice(2);
const desk = await openDesk({ bookPath, onBroken: (error) => console.error(error) });
const say = (message: FromDesk) => process.send?.(message);
process.on('message', ({ id, name, input }: AskDesk) => {
  void desk.call(name, input).then((answer) => say({ id, answer }));
});
followStationSettings({
  door: { ...openStationDoor(desk), lineIs: (line) => say({ line }) },
  book: () => ({ path: bookPath, shop: 'Bad Line' }),
  windowFolder: '',
});
process.on('disconnect', () => process.exit(0));
