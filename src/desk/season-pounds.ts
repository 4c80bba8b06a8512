/** Where the weight on the hook went, for the animals whose every part was weighed. */
import type { PoundSums } from '../book/season-pounds.ts';
import { read } from './procedure.ts';
import type { DeskRoom } from './room.ts';
import { seasonFilter, sumsOf } from './season-filter.ts';
import type { CutPart, LossKind, PoundsLook } from './shapes.ts';

const PARTS: Readonly<Record<CutPart, keyof PoundSums>> = {
  'whole cuts': 'whole_cuts',
  trim: 'trim',
  'fat saved': 'fat_saved',
  bone: 'bone',
  sinew: 'sinew',
  damage: 'damage',
};
const GRAMS_PER_KG = 1000;

export const pounds = read(seasonFilter, (room, input): PoundsLook => {
  const filter = sumsOf(room, input);
  const of = room.book.seasonYields.species(filter).flatMap(({ species }) => {
    const sums = room.book.seasonPounds.sums({ ...filter, species }, mostShrink(room, species));
    return sums && sums.n > 0 ? [{ code: species, name: room.species.of(species).name, sums }] : [];
  });
  const total = (key: keyof PoundSums): number => of.reduce((all, { sums }) => all + sums[key], 0);
  const ground = room.book.seasonPounds.ground(filter);
  const lossGrams = Math.max(0, ground.own + ground.bought - ground.out);
  const income = room.book.seasonPounds.income(filter.season, room.settings.currency);
  const minorPerKg = income.grams > 0 ? income.minor / (income.grams / GRAMS_PER_KG) : null;
  const base = total('base');
  const losses: [LossKind, number][] = [
    ['bone', total('bone')],
    ['sinew', total('sinew')],
    ['damage', total('damage')],
    ['shrink', total('shrink')],
    ['unexplained', total('unexplained')],
    ['grinder', lossGrams],
  ];
  return {
    season: filter.season,
    n: total('n'),
    others: room.book.seasonPounds.others(filter),
    baseGrams: base,
    parts: (Object.keys(PARTS) as CutPart[]).map((part) => ({ part, grams: total(PARTS[part]) })),
    shrinkGrams: total('shrink'),
    unexplainedGrams: total('unexplained'),
    overGrams: total('over'),
    grinder: {
      batches: ground.batches,
      inGrams: ground.own,
      fatGrams: ground.bought,
      outGrams: ground.out,
      lossGrams,
    },
    packedGrams: total('packed') + ground.out,
    minorPerKg,
    losses: losses
      .filter(([, grams]) => grams > 0)
      .map(([what, grams]) => ({
        what,
        grams,
        share: grams / base,
        minor: minorPerKg === null ? null : Math.round((grams / GRAMS_PER_KG) * minorPerKg),
      }))
      .sort((a, b) => b.grams - a.grams),
    species: of.map(({ code, name, sums }) => ({
      code,
      name,
      n: sums.n,
      baseGrams: sums.base,
      shares: {
        'whole cuts': sums.whole_cuts / sums.base,
        trim: sums.trim / sums.base,
        'fat saved': sums.fat_saved / sums.base,
        bone: sums.bone / sums.base,
        sinew: sums.sinew / sums.base,
        damage: sums.damage / sums.base,
        shrink: sums.shrink / sums.base,
        unexplained: sums.unexplained / sums.base,
      },
    })),
  };
});

/** The share of the hanging weight that 9 in 10 animals of the species lose at most in drying and dripping. */
function mostShrink(room: DeskRoom, species: string): number {
  return room.yields.shares({ species, brought: 'skinned' }).shrink.high;
}
