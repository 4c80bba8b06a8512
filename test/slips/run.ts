/**
 * What becomes of slips, on made-up shops at a real desk. `npm run slips -- [animals] [--markdown]` prints how often each
 * slip is asked about, named, missed; how often right weights are questioned; and the best that any test could do.
 */
import { openShop, type Shop } from './world.ts';
import { SLIPS, type SlipName } from './making-slips.ts';
import { bestOdds } from './best-test.ts';
import { openFloor, teach, weighIn, type Outcome } from './shop-floor.ts';

const MISSING = (process.env['MISSING'] ?? '0,0.2,0.6').split(',').map(Number);
const TAUGHT = (process.env['TAUGHT'] ?? '0,150').split(',').map(Number);
const SHOPS = 4;

export interface Cell {
  missing: number;
  taught: number;
  slip: SlipName | null;
  shop: Shop;
  outcomes: Outcome[];
}

export async function simulate(
  perShop: number,
  correctPerShop: number,
  seed: number,
  shops = SHOPS,
): Promise<Cell[]> {
  const cells: Cell[] = [];
  for (const missing of MISSING)
    for (const taught of TAUGHT)
      for (let shopNumber = 0; shopNumber < shops; shopNumber++) {
        const { shop, chance } = openShop(missing, seed + 1000 * shopNumber + 10 * missing + taught);
        const floor = await openFloor();
        await teach(floor, shop, chance, taught);
        for (const slip of [null, ...SLIPS]) {
          const outcomes: Outcome[] = [];
          for (let i = 0; i < (slip ? perShop : correctPerShop); i++)
            outcomes.push(await weighIn(floor, shop, chance, slip));
          cells.push({ missing, taught, slip, shop, outcomes });
        }
        floor.close();
      }
  return cells;
}

if (import.meta.main ?? process.argv[1]?.endsWith('slips/run.ts')) {
  const perShop = Number(process.argv.slice(2).find((word) => /^\d+$/.test(word)) ?? 25);
  const cells = await simulate(perShop, 2 * perShop, 7, Number(process.env['SHOPS'] ?? SHOPS));
  const pct = (part: number, whole: number) =>
    whole ? ((100 * part) / whole).toFixed(1).padStart(6) : '     –';
  const odds = new Map(cells.flatMap((c) => c.outcomes.map((o) => [o, bestOdds(c.shop, o.seen)] as const)));
  for (const missing of MISSING) {
    const right = cells
      .filter((c) => c.missing === missing && c.slip === null)
      .flatMap((c) => c.outcomes.map((o) => odds.get(o) ?? 0))
      .sort((a, b) => b - a);
    const threshold = right[Math.floor(0.015 * right.length)] ?? 0;
    console.log('best threshold', threshold.toFixed(3), right.length);
    for (const taught of TAUGHT)
      for (const slip of [null, ...SLIPS]) {
        const o = cells
          .filter((c) => c.missing === missing && c.taught === taught && c.slip === slip)
          .flatMap((c) => c.outcomes);
        const n = o.length;
        const count = (f: (x: Outcome) => boolean) => o.filter(f).length;
        console.log(
          String(missing).padEnd(4),
          String(taught).padEnd(4),
          (slip ?? 'none').padEnd(18),
          String(n).padStart(4),
          'asked',
          pct(
            count((x) => x.asked),
            n,
          ),
          'named',
          pct(
            count((x) => x.named),
            n,
          ),
          'unclear',
          pct(
            count((x) => !x.asked && !x.named && x.unclear),
            n,
          ),
          'wrongly',
          pct(
            count((x) => !x.asked && !x.named && x.rightQuestioned > 0),
            n,
          ),
          'silent',
          pct(
            count((x) => !x.asked && !x.named && !x.unclear && x.rightQuestioned === 0),
            n,
          ),
          'offer',
          pct(
            count((x) => x.offeredRight !== null),
            count((x) => x.asked || x.named),
          ),
          'right',
          pct(
            count((x) => x.offeredRight === true),
            count((x) => x.offeredRight !== null),
          ),
          'power',
          pct(
            count((x) => x.asked || x.named || x.unclear),
            n,
          ),
          'best',
          pct(
            count((x) => (odds.get(x) ?? 0) > threshold),
            n,
          ),
          'q/100',
          ((100 * o.reduce((s, x) => s + x.rightQuestioned, 0)) / n).toFixed(1),
        );
      }
  }
}
