/** What `npm run calibrate` prints of owners with several shops. */
import { binomialBand } from './coverage.ts';
import { fatOwnersHeld, lossOwnersHeld, MADE_STAGES } from './owners-made.ts';
import { OWNER_WORLDS, ownersHeld, SHOPS_OF_OWNER } from './owners.ts';

interface Table {
  titles: string[];
  rows: string[][];
  note: string;
}

const LEVEL = 0.8;
/** Animals of its own that the new shop weighed. */
const STAGES = [0, 1, 5, 20] as const;
const percent = (share: number): string => (100 * share).toFixed(1);
const marked = (share: number, owners: number): string =>
  percent(share) + (Math.abs(share - LEVEL) > binomialBand(LEVEL, owners) ? '*' : '');
const noteOf = (owners: number): string =>
  `An honest count of ${owners} owners falls within ${percent(LEVEL)} ± ${percent(binomialBand(LEVEL, owners))}; * marks those outside.`;

export function ownersTable(owners: number): Table {
  const rows = OWNER_WORLDS.flatMap((world, w) =>
    SHOPS_OF_OWNER.map((shops) => [
      world.name,
      String(shops),
      ...ownersHeld(world, shops, owners, 301 + w, STAGES).map(
        ({ inside, splits, width, aloneWidth }) =>
          `${marked(inside / owners, owners)} (${percent(splits / owners)}), ${percent(width / owners)} / ${percent(aloneWidth / owners)}`,
      ),
    ]),
  );
  return {
    titles: ['shops of the owner', 'shops', ...STAGES.map((own) => `${own} weighed`)],
    rows,
    note: noteOf(owners),
  };
}

/** Each share that shops may have in common. */
const ALIKE = [0.95, 0.5, 0];

export function madeOwnersTable(owners: number): Table {
  const kinds = [['fat', fatOwnersHeld], ['loss', lossOwnersHeld]] as const; // prettier-ignore
  const rows = kinds.flatMap(([name, heldOf]) =>
    ALIKE.flatMap((alike, i) =>
      SHOPS_OF_OWNER.map((shops) => [
        name,
        `${100 * alike} %`,
        String(shops),
        ...heldOf(alike, shops, owners, 401 + i).map(
          ({ inside, width, aloneInside, aloneWidth }) =>
            `${marked(inside / owners, owners)}, ${percent(width / owners)} / ${percent(aloneWidth / owners)} (alone ${percent(aloneInside / owners)})`,
        ),
      ]),
    ),
  );
  return {
    titles: ['what', 'in common', 'shops', ...MADE_STAGES.map((own) => `${own} before`)],
    rows,
    note: noteOf(owners),
  };
}
