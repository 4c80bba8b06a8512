import { plural } from '../../plural.ts';

/** Texts of the ladder, the breakdown of an animal's weight. Amounts are already formatted. */
export const ladderText = {
  heading: (unit: 'lb' | 'kg', base: string) =>
    `Where every ${unit === 'lb' ? 'pound' : 'kilo'} of ${base} went`,
  headingUnweighed: 'Where the weight went',
  asItCameIn: 'weight as it came in',
  unweighed: 'Not weighed yet',
  unweighedHow: 'Weigh it as it came in or on the hook; then every part is shown against it.',
  spoken: (base: string, pieces: string) => `Weight ladder of ${base}: ${pieces}`,

  parts: 'Parts of this animal',
  part: 'Part',
  weighed: 'Weighed',
  none: 'none',
  share: 'Share',
  others: 'Typical range (80%)',
  off: { above: 'above', below: 'below' },
  weightsOf: (name: string, mass: string) => `Weights of ${name} ${mass}`,
  packed: 'Packed',
  packedLong: 'Packed to take home',
  tooMuch: 'Weighed too much',
  tooMuchBy: (mass: string) => `${mass} too much`,
  restInOneGo: 'Not weighed: bone, sinew, shrink',
  rest: 'Unaccounted for',
  shrink: (range: string) => `shrink ${range}`,
  othersFrom: (ownAnimals: number) =>
    ownAnimals > 0
      ? `The typical ranges rest on ${plural(ownAnimals, 'animal', 'animals')} of this shop and on the figures that came with the program.`
      : 'The typical ranges rest on the figures that came with the program, until this shop has cut some.',
  source: 'Where the figures come from',

  soFar: (mass: string, shareOf: string, usual: string) =>
    `Take home so far ${mass}, ${shareOf}${usual ? `; such animals mostly give ${usual}` : ''}.`,
  expect: (range: string, sharesOf: string) => `Expect ${range} to take home, ${sharesOf}.`,
  ofHanging: (share: string) => `${share} of hanging weight`,
  ofCameIn: (share: string) => `${share} of what came in`,
};
