/** Texts of an animal's weights: the list, voiding, and doubts. */
export const weighingText = {
  heading: 'Weighings',
  headingOf: (part: string) => `Weighings of ${part}`,
  caption: 'Weighings of this animal',
  isNone: 'none',
  none: 'Nothing weighed yet. Type the first weight above and press Enter.',
  of: 'Of',
  weight: 'Weight',
  when: 'When, who',
  edit: 'Edit',
  batch: (name: string) => `batch ${name}`,
  tare: (typed: string) => `less ${typed}`,
  correct: 'Edit',
  correctOf: (name: string, typed: string) => `Edit ${name} ${typed}`,
  void: 'Void',
  voidOf: (name: string, typed: string) => `Void ${name} ${typed}`,
  takeNoneBack: (part: string) => `Void “no ${part.toLowerCase()}”`,
  takenBack: (reason: string, by: string) => `voided: ${reason}${by ? `, ${by}` : ''}`,
  partOf: (part: string, primal: string) => `${part} of ${primal}`,
  intoGrinder: (part: string) => `${part} into the grinder`,

  voidQuestion: (weight: string) => `Void ${weight}?`,
  tookBack: (weight: string) => `Voided ${weight}.`,
  restored: (weight: string) => `${weight} is back.`,
  undone: 'Undone.',
  why: 'Why',
  reason: 'Reason',
  leaveIt: 'Cancel',
  whys: {
    twice: 'Weighed twice',
    wrongAnimal: 'Wrong animal',
    wrongPart: 'Wrong part',
    other: 'Other',
  },
  /** Stored in the book as shown here, beside the voided weight. */
  reasons: {
    twice: 'weighed twice',
    wrongAnimal: 'wrong animal',
    wrongPart: 'wrong part',
    mistyped: 'mistyped',
    again: 'weighed again',
    undone: 'undone',
    statedByMistake: 'stated by mistake',
    correctionUndone: 'correction undone',
  },
} as const;

/** Texts for an implausible weight, at the entry or later. Amounts are already formatted. */
export const doubtText = {
  heading: 'This does not add up.',
  sameAgain: 'The same again?',
  anotherHung: 'Another side or piece?',
  sameHung: 'Replace the earlier weight',
  addHung: 'Yes, add it',
  second: 'Yes, save a second one',
  yesKeep: (typed: string) => `Yes, save ${typed}`,
  makeIt: (typed: string) => `Make it ${typed}`,
  noAgain: 'No, weigh again',
  later: 'Later',
  yesRight: (typed: string) => `Yes, ${typed} is right`,
  voidOne: 'Void one of them',
  voidIt: 'Void it',

  over: (typed: string, name: string, over: string) =>
    `With ${typed} for “${name}”, the parts weigh ${over} more than the animal.`,
  misfit: (typed: string, name: string) =>
    `With ${typed} for “${name}”, it does not fit the other weights of this animal.`,
  perhapsTwice: 'The same weight is entered twice. Was it weighed only once?',
  perhapsOther: 'Perhaps it belongs to another animal.',
  unclear: 'These weights do not add up as such animals usually do, and no single one stands out.',
  unclearOver: (over: string) =>
    `The parts weigh ${over} more than the animal, and no single weight stands out.`,
  lookThrough: 'Look through the list, and weigh again what you are not sure of.',
  theyAreRight: 'Yes, they are right',
  perhaps: (slip: string, typed: string) => `Perhaps ${slip.toLowerCase()}: did you mean ${typed}?`,
  perhapsGone: (slip: string, typed: string) =>
    `Perhaps ${slip.toLowerCase()}, and it was ${typed}; it has left the shop. Reopen it to put it right.`,
  tookItBack: (typed: string) => `Voided ${typed}. It stays in the list, struck through.`,
  tookOneBack: (typed: string) => `Voided one of the two ${typed}. It stays in the list, struck through.`,
  changed: (typed: string) => `Changed to ${typed}. The old weight stays in the list, struck through.`,
} as const;
