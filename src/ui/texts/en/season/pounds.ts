import type { CutPart, LossKind } from '../../../../bridge/contract.ts';
import { plural } from '../../plural.ts';

/** Texts of the breakdown of the hanging weight. Amounts are already formatted. */
export const poundsText = {
  title: { lb: 'Where every pound went', kg: 'Where every kilogram went' },
  onTheHook: 'On the hook',
  takeHome: 'Take-home',
  fates: {
    'whole cuts': 'Whole cuts',
    trim: 'Trim for grinding',
    'fat saved': 'Fat saved',
    bone: 'Bone',
    sinew: 'Sinew and silverskin',
    damage: 'Damage cut away',
    shrink: 'Drying and dripping',
    unexplained: 'Not explained',
    grinder: 'Left in the grinder',
    smokehouse: 'Water lost in the smoker or dryer',
  } satisfies Record<CutPart | LossKind, string>,
  shrinkAndUnweighed: 'Shrink and not weighed',
  shrinkAndUnweighedSaid: 'shrink and what was not weighed',
  over: (mass: string) => `${mass} weighed beyond it`,

  grinder: (batches: number) => `Through the grinder, ${plural(batches, 'batch', 'batches')}`,
  grinderIn: (meat: string, fat: string | null) =>
    fat === null ? `${meat} in` : `${meat} in and ${fat} of bought fat`,
  grinderOut: (mass: string) => `${mass} packed`,
  dried: (mass: string, share: string) => `${mass} water lost in the smoker or dryer (${share})`,
  grinderLoss: (mass: string, share: string) => `${mass} left in it (${share})`,

  n: (n: number, others: number) =>
    `n = ${plural(n, 'animal', 'animals')} weighed in every part` +
    (others > 0 ? `, ${others} more were not` : ''),
  none: (others: number) =>
    others === 0
      ? 'No animal is finished here yet. Weigh its parts at the Table and you see here where its weight went.'
      : `${others === 1 ? 'The one finished animal here was' : `The ${others} finished animals here were`} not weighed in every part, so nobody can say where the weight went. Weigh bone and trim at the Table too.`,
  finding: (base: string, n: number, home: string, most: string, mostShare: string) =>
    `Of ${base} on the hook (${plural(n, 'animal', 'animals')}) ${home} went home. Most of the rest is ${most}, ${mostShare} of all.`,
  unexplained: (mass: string, share: string) => `Nothing explains ${mass} (${share}).`,
  allExplained: 'Every weight is explained.',
  few: (n: number) => `${plural(n, 'animal', 'animals')} are too few to say what is usual.`,
  one: 'One animal does not say what is usual.',
  key: 'Hatched: nobody knows. Dotted: not weighed, but as much as such animals lose in the cooler by what the shop has learned. Choose a stream to see its animals.',
  grinderNote:
    'The grinder shows every finished batch with meat of these animals and of those not weighed in every part, on a scale of its own.',
  overNote: (mass: string) =>
    `The parts of some animals weigh more than hung: ${mass} in all. Look for a wrong weight among them.`,

  damageUnknown: (n: number) =>
    `Damage of ${plural(n, 'animal', 'animals')} was neither weighed nor stated to be none, so what is called shrink is shrink and what was not weighed.`,

  lossTitle: 'What does not go home',
  lossFinding: (share: string, mass: string, least: string) =>
    `${share} of the hanging weight did not go home: ${mass}. ${least}`,
  lossFixed: (what: string, mass: string, money: string | null) =>
    `Beside bone, most went as ${what}: ${mass}${money === null ? '' : `, as much as ${money} of work billed`}.`,
  onlyBone: 'It was bone alone.',
  noLoss: 'Nothing was lost, by what was weighed.',
  lossMoney: (perUnit: string) =>
    `Money: what the season’s bills took for each ${perUnit}, before tax. Less of it lost is more meat for the hunter; it becomes the shop’s money only where the bill goes by weight.`,
  perUnit: (money: string, unit: 'lb' | 'kg') =>
    `${unit === 'lb' ? 'pound' : 'kilogram'} of take-home, ${money}`,
  noMoney: 'No bill of this season tells what a weight is worth, so there is no money here yet.',
  kind: 'What',
  weight: 'Weight',
  share: 'Of the hanging weight',
  money: 'Worth',
  moneyMinor: 'Worth, minor units',

  speciesTitle: 'Kinds of game side by side',
  speciesFinding: (most: string, mostShare: string, least: string, leastShare: string) =>
    `Highest take-home: ${most} (${mostShare}). Lowest: ${least} (${leastShare}).`,
  speciesOne: (name: string, share: string) => `${name} gave ${share} of its weight to take home.`,
  speciesFew: (names: string) => `Too few to judge: ${names}.`,
  speciesKey:
    'Each bar is all that was weighed off the hook or is explained. Choose a piece to see its animals.',
  kindN: (name: string, n: number) => `${name} (${n})`,
};
