import type { Age, SeasonFilter, Sex } from '../../../../bridge/contract.ts';

/** Texts around every season view: tabs and filter. */
export const frameText = {
  heading: (season: number) => `Season ${season}`,
  tabs: 'Season',
  report: 'Season report',
  views: {
    yields: 'Take-home',
    pounds: 'Where every pound went',
    poundsKilo: 'Where every kilogram went',
    fat: 'Fat',
    check: 'Quotes kept',
    compare: 'Compare',
    animals: 'Animals',
    flow: 'Flow and coolers',
    money: 'Money',
    costs: 'Costs and prices',
  },
};

export const filterText = {
  title: 'Which animals',
  season: 'Season',
  species: 'Species',
  brought: 'Brought as',
  cutter: 'Cut by',
  from: 'Came in from',
  to: 'to',
  more: 'More',
  fewer: 'Fewer',
  sex: 'Sex',
  age: 'Age',
  damage: 'Shot damage',
  detail: 'Weighed',
  all: 'All',
  everyAnimal: 'all animals',
  change: 'Change filters',
  done: 'Close filters',
  clear: 'Show all animals',
  backwards: 'The first day is after the last, so no animal came in between. Change one of the two days.',

  with: 'With',
  without: 'Without',
  damaged: 'with shot damage',
  undamaged: 'without shot damage',
  detailWords: { detailed: 'In every part', quick: 'Only hung and packed' } satisfies Record<
    NonNullable<SeasonFilter['detail']>,
    string
  >,
  details: { detailed: 'weighed in every part', quick: 'only hung and packed' } satisfies Record<
    NonNullable<SeasonFilter['detail']>,
    string
  >,
  sexes: { male: 'males', female: 'females', unknown: 'sex not told' } satisfies Record<Sex, string>,
  ages: {
    young: 'young of the year',
    yearling: 'yearlings',
    adult: 'adults',
    unknown: 'age not told',
  } satisfies Record<Age, string>,
  cutBy: (initials: string) => `cut by ${initials}`,
  between: (from: string, to: string) => `came in ${from} to ${to}`,
  since: (from: string) => `came in since ${from}`,
  until: (to: string) => `came in until ${to}`,
};
