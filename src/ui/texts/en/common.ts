/** Texts used in several places, and the names of codes from the desk, which must never be shown themselves. */
import type {
  Age,
  Legs,
  AnimalStage,
  Brought,
  CutPart,
  Grade,
  HangState,
  Sex,
  WeighStage,
} from '../../../bridge/contract.ts';

export const words = {
  waiting: 'Working …',
  close: 'Close',
  undo: 'Undo',
  published: 'Where this was published',
  /** The grade of a supplied figure, shown before its source. */
  grade: {
    measured: 'Measured',
    official: 'Official',
    extension: 'University extension',
    assumption: 'Assumption',
  } satisfies Record<Grade, string>,
  /** A source after its grade; old quotes have none. */
  graded: ({ grade, source }: { grade: Grade | null; source: string }): string =>
    grade === null ? source : `${words.grade[grade]}. ${source}`,
  isRight: 'Yes, that is right',
  changeIt: 'No, change it',
  yearWrong: 'The year cannot be right: years run from 1950 to 2099.',
  dayUnread: 'That is not a date. Type it as 11/27, as 27, or as today.',
  calendarFor: (what: string) => `${what}: pick from the calendar`,
  stage: {
    hanging: 'Hanging',
    cutting: 'On the table',
    packing: 'Packing',
    ready: 'Ready',
    released: 'Picked up',
    disposed: 'Disposed of',
    canceled: 'Canceled',
  } satisfies Record<AnimalStage, string>,
  sex: { male: 'Male', female: 'Female', unknown: 'Unknown' } satisfies Record<Sex, string>,
  age: {
    young: 'Young',
    yearling: 'Yearling',
    adult: 'Adult',
    unknown: 'Unknown',
  } satisfies Record<Age, string>,
  legs: { on: 'Legs on', off: 'Legs off', unknown: 'Unknown' } satisfies Record<Legs, string>,
  brought: {
    whole: 'Hide on',
    skinned: 'Skinned',
    quarters: 'Quarters',
    primals: 'Some primals',
    boned: 'Boneless',
  } satisfies Record<Brought, string>,
  broughtAs: {
    whole: 'whole',
    skinned: 'skinned',
    quarters: 'in quarters',
    primals: 'some primals',
    boned: 'boneless',
  } satisfies Record<Brought, string>,
  part: {
    'whole cuts': 'Whole cuts',
    trim: 'Trim',
    'fat saved': 'Fat saved',
    sinew: 'Sinew',
    bone: 'Bone',
    damage: 'Damage',
  } satisfies Record<CutPart, string>,
  partLong: {
    'whole cuts': 'Whole cuts',
    trim: 'Trim for grinding',
    'fat saved': 'Fat saved',
    sinew: 'Sinew and silverskin',
    bone: 'Bone',
    damage: 'Damage cut away',
  } satisfies Record<CutPart, string>,
  /** The default name of packages with an animal's whole cuts. */
  wholeCutsProduct: 'Steaks and roasts',
  /** Shown beside a number that was not typed. */
  source: { scale: 'scale', practice: 'practice scale', import: 'imported' } as Record<string, string>,
  weighStage: {
    live: 'Live weight',
    dressed: 'Field-dressed weight',
    received: 'Weight received',
    hanging: 'Hanging weight',
    primal: 'Primal',
    cut: 'Part',
    grinder: 'Into the grinder',
    packed: 'Packages',
  } satisfies Record<WeighStage, string>,
  back: 'Back',
  backTo: (name: string) => `Back: ${name}`,
  hangState: {
    fresh: 'fresh',
    ready: 'ready to cut',
    due: 'due',
    over: 'past the limit',
  } satisfies Record<HangState, string>,
  hold: {
    sample: 'sample pending',
    positive: 'tested positive',
  } as Record<string, string>,
} as const;

/** The name of a code; without one, the code itself in readable form. */
export function wordFor(table: Readonly<Record<string, string>>, code: string): string {
  return table[code] ?? code.replace(/^./, (letter) => letter.toUpperCase());
}

/** The species' own word: buck, doe, bull, cow, boar … */
export function sexWord(
  wordsOf: { male: string; female: string; young: string },
  sex: Sex,
  age: Age,
): string {
  if (age === 'young') return wordsOf.young;
  if (sex === 'unknown') return '';
  return wordsOf[sex];
}
