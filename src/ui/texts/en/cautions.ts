import type { Caution, CautionPlace } from '../../../bridge/contract.ts';
import { plural } from '../plural.ts';

/** Texts around the cautions, in each place and on their own page. */
export const cautionText = {
  heading: 'Cautions',
  first:
    'Local rules and licensed practice come first. What stands here is a reminder in our own words, out of published advice; your health department, your wildlife agency and your inspector have the last word.',
  safer: 'Where two published figures differ, the safer one is told, and both are named.',
  places: {
    intake: 'Intake',
    rail: 'Rail',
    table: 'Table',
    grinder: 'Grinder',
    label: 'Labels',
    'pick-up': 'Pickup',
    unclaimed: 'Unclaimed meat',
  } satisfies Record<CautionPlace, string>,
  when: {
    always: 'at every animal',
    species: 'at the species that it concerns',
    'positive result': 'after a positive result',
  } satisfies Record<Caution['when'], string>,
  shown: (places: string, when: string) => `Shown at: ${places}; ${when}.`,
  species: (names: string) => `Species: ${names}.`,
  named: 'An animal of your own is warned of by its name.',
  differs: 'Figures differ.',
  source: 'Source',
  readOn: (day: string) => `read on ${day}`,
  print: 'Print',
  list: 'Cautions',
  count: (n: number) => plural(n, 'caution', 'cautions'),
  read: 'Read',
  hide: 'Hide',
  localFirst: 'Local rules come first.',
  all: 'All cautions',
  allHint: 'Every caution with its source, to read in peace or to hang on the wall.',
};
