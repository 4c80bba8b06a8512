/**
 * `npm run floor -- --animals 120 --minute 40 --seed 1`: a day on nine stations over TLS; `--minute`: milliseconds that a minute
 * of the day takes. Prints the figures; exit code 1 if an entry was lost, doubled or out of order.
 */
import { parseArgs } from 'node:util';
import { floorDay, type FloorResult } from './floor-day.ts';

const { values } = parseArgs({
  options: {
    animals: { type: 'string', default: '120' },
    minute: { type: 'string', default: '40' },
    seed: { type: 'string', default: '1' },
  },
});
const [animals, minuteMs, seed] = [Number(values.animals), Number(values.minute), Number(values.seed)];
const result = await floorDay({ animals, minuteMs, seed });
console.log(table(result));
process.exitCode = result.lost + result.doubled + result.outOfOrder > 0 ? 1 : 0;

function table(day: FloorResult): string {
  const minutes = (numbers: readonly number[]) => spread(numbers, 1, 'min');
  return [
    `hunters in line        ${minutes(day.waited)}`,
    `until the ticket       ${minutes(day.served)}`,
    `own check-ins          ${day.ownCheckIns}`,
    `photographs            ${day.photos}`,
    `entries                ${day.entries}, of which ${day.asked} were doubted and confirmed`,
    `answered within        ${spread(day.answeredMs, 0, 'ms')}`,
    `sent without an answer ${day.unanswered}`,
    `faults                 ${day.faults}`,
    `lost                   ${day.lost}`,
    `doubled                ${day.doubled}`,
    `stations out of order  ${day.outOfOrder}`,
  ].join('\n');
}

function spread(numbers: readonly number[], places: number, unit: string): string {
  const sorted = numbers.toSorted((a, b) => a - b);
  const at = (share: number) =>
    (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0).toFixed(places);
  return `half ${at(0.5)}, nine in ten ${at(0.9)}, longest ${at(1)} ${unit} (${numbers.length})`;
}
