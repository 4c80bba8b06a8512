import type { text } from '../../words/compiled/window/tour.ts';
import { call } from '../link/bridge.ts';

/** One stop of the tour: its page in the demo season, and the element to highlight, the best selector first. */
interface Stop {
  /** Its title stands in `tour.arb` under this code; what it says is fetched, as `tour.CODE`. */
  code: keyof typeof text.stops;
  place: () => Promise<string>;
  sights: readonly string[];
}

/** Example of the quote's stop: an elk of a usual weight. */
const ELK = '/quote?species=elk&weight=340+lb';

export const stops: readonly Stop[] = [
  { code: 'rail', place: () => Promise.resolve('/rail'), sights: ['[data-sight="next"]'] },
  {
    code: 'table',
    place: doubted,
    sights: ['[data-sight="doubt"]', '[data-sight="ladder"]', '[data-sight="next"]'],
  },
  { code: 'grinder', place: fatWanted, sights: ['[data-sight="fat"]', '[data-sight="waiting"]'] },
  { code: 'quote', place: () => Promise.resolve(ELK), sights: ['[data-sight="phone"]'] },
  { code: 'season', place: () => Promise.resolve('/season'), sights: ['main section:has(svg, canvas)'] },
];

/** An animal on the Table with a doubtful weight; any other if there is none. */
async function doubted(): Promise<string> {
  const rail = await call('rail.get', {});
  if (!rail.ok) return '/table';
  const { hooks } = rail.value;
  const cutFirst = [...hooks].sort((a, b) => Number(a.stage === 'hanging') - Number(b.stage === 'hanging'));
  for (const { ticket } of cutFirst) {
    const answer = await call('animals.get', { ticket });
    if (!answer.ok) continue;
    const { balance, detail } = answer.value;
    if (balance.suspects.length > 0 && (detail === 'detailed' || balance.overGrams > 0))
      return `/table/${ticket}`;
  }
  return cutFirst[0] ? `/table/${cutFirst[0].ticket}` : '/table';
}

/** Trim that needs bought fat, so that a plan is shown. */
async function fatWanted(): Promise<string> {
  const view = await call('grinder.get', {});
  if (!view.ok) return '/grinder';
  const wanting = view.value.waiting.find(({ wants: [first], hold }) => {
    const bought = first !== undefined && first.fat !== 'none' && first.fat !== 'own';
    return hold === null && bought && first.targetFat !== null;
  });
  return wanting ? `/grinder?animal=${wanting.id}` : '/grinder';
}
