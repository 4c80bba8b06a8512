import { apportion } from '../../../src/core/values/apportion.ts';
import type { PublishedResult } from '../result.ts';

/** Populations of the census of 1790: CT DE GA MD MA KY NH NJ NY NC PA RI SC VT VA. */
const CENSUS = [236841, 55540, 70835, 278514, 475327, 68705, 141822, 179570, 331591, 353523, 432879, 68446, 206236, 85533, 630560]; // prettier-ignore

export const shares: readonly PublishedResult[] = [
  {
    name: 'Hamilton: 105 seats by the census of 1790, 15 states',
    source:
      'Aufmann et al., Mathematical Excursions 4.1, Excursion Exercise 2 (solution: bartleby.com, 9781305965584)',
    basis: 'stated',
    note: 'the first six states were read there, the others as in Balinski & Young, Fair Representation, from memory',
    expected: [7, 2, 2, 8, 14, 2, 4, 5, 10, 10, 13, 2, 6, 2, 18],
    ours: () => apportion(105, CENSUS),
    near: { within: 0 },
    mistake: {
      what: 'divisor rounded down for the large, as Congress did it: Virginia 19, Delaware 1',
      gives: [7, 1, 2, 8, 14, 2, 4, 5, 10, 10, 13, 2, 6, 2, 19],
    },
  },
  {
    name: 'Hamilton: 75 seats for the five counties of Rhode Island',
    source: 'Lippman, Math in Society, chapter 4.2, Hamilton’s method, Example 2',
    basis: 'stated',
    note: 'from memory',
    expected: [3, 12, 6, 45, 9],
    ours: () => apportion(75, [49875, 166158, 82888, 626667, 126979]),
    near: { within: 0 },
    mistake: { what: 'seats left over given to the largest', gives: [3, 12, 5, 45, 10] },
  },
  {
    name: 'Hamilton: 25 seats for the six states of New England',
    source: 'course handout on apportionment, coursehero.com/file/6716897',
    basis: 'stated',
    expected: [11, 6, 3, 2, 2, 1],
    ours: () => apportion(25, [6.3, 3.4, 1.4, 1.2, 1.0, 0.6]),
    near: { within: 0 },
    mistake: { what: 'seats left over given to the largest', gives: [12, 7, 2, 2, 1, 1] },
  },
];
