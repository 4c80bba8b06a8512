/** Days from intake to ready. */
import type { SeasonRow } from '../../book/sums/season-rows.ts';
import { daysBetween } from '../../core/values/dates.ts';
import { summariseDistribution } from '../../core/stats/distribution-summary.ts';
import type { Session } from '../session/session.ts';
import type { FlowReport } from '../contract/contract.ts';

/** Of the animals that are ready or gone: their number by days of waiting, and by species, most animals first. */
export function waitsOf(session: Session, rows: readonly SeasonRow[]): Pick<FlowReport, 'waits' | 'waitOf'> {
  const all = new Map<number, number>();
  const bySpecies = new Map<string, number[]>();
  const dayNumber = memoizedNumber();
  for (const { species, stage, received_on: received, ready_on: ready } of rows) {
    if ((stage !== 'ready' && stage !== 'released') || ready === null || ready < received) continue;
    const days = dayNumber(ready) - dayNumber(received);
    all.set(days, (all.get(days) ?? 0) + 1);
    const own = bySpecies.get(species);
    if (own) own.push(days);
    else bySpecies.set(species, [days]);
  }
  return {
    waits: [...all].map(([days, animals]) => ({ days, animals })).sort((a, b) => a.days - b.days),
    waitOf: [...bySpecies]
      .flatMap(([code, own]) => {
        const spread = summariseDistribution(own.sort((a, b) => a - b));
        return spread ? [{ code, name: session.species.of(code).name, spread }] : [];
      })
      .sort((a, b) => b.spread.n - a.spread.n || a.name.localeCompare(b.name)),
  };
}

/** There are few days compared with animals. */
function memoizedNumber(): (day: string) => number {
  const known = new Map<string, number>();
  return (day) => {
    let number = known.get(day);
    if (number === undefined) known.set(day, (number = daysBetween('2000-01-01', day)));
    return number;
  };
}
