/** Texts of holds, steps after a positive result, and disposal. */
export const holdText = {
  title: 'Hold',
  none: 'Not on hold.',
  start: 'Put on hold',
  lift: 'Lift hold',
  lifted: (ticket: string) => `The hold on ${ticket} is lifted.`,
  liftHow:
    'For a hold that no test result ends. A test result is entered as such and ends the hold by itself.',
  liftReason: 'Reason',
  liftReasonHint:
    'For example: entered for the wrong animal, passed by the inspector. It stays in the record.',
  since: (moment: string) => `since ${moment}`,
  sampleNumber: (sample: string) => `number ${sample}`,
  apart: 'Keep it apart; it is not released before the result is in.',
  waits: 'This shop does not cut it before then.',
  alone:
    'It may be cut, and is ground by itself; take the grinder apart and clean it after it, before the next, and record that.',
  notCut: 'On hold: it is not cut, ground or packed before the result is in.',
  why: 'Why',
  sampleSent: 'Sample sent in',
  other: 'Other',
  sample: 'Sample number',
  reason: 'Reason',
  outcomes: { cleared: 'Nothing found', positive: 'Positive', withdrawn: 'Hold not needed' },
  note: 'Note',
  notNow: 'Cancel',

  enterResult: 'Enter test result',
  correctResult: 'Correct result',
  result: 'Result',
  results: { 'not detected': 'Not detected', positive: 'Positive', none: 'No result yet' },
  resultDoes: {
    'not detected': 'The hold ends with it.',
    positive: 'The hold stays, and the steps to take are shown.',
    none: 'For a result that belongs to another animal: the hold waits again.',
  },
  lab: 'Laboratory',
  reportedOn: 'Reported on',
  whyCorrected: 'Reason',
  whyCorrectedHint: 'For example: read for another sample. The first result stays in the record.',
  sampleIsRight: 'Yes, it is this animal',
  saveResult: 'Save result',
  resultSaved: {
    'not detected': (ticket: string) => `${ticket}: not detected. The hold has ended.`,
    positive: (ticket: string) => `${ticket} tested positive. The hold stays.`,
    none: (ticket: string) => `${ticket} waits for its result again.`,
  },
  resultLine: (result: string, about: string) => (about ? `${result}: ${about}.` : `${result}.`),
  resultOf: (sample: string, lab: string, day: string) =>
    [sample && `sample ${sample}`, lab, `reported ${day}`].filter(Boolean).join(', '),
  earlier: 'Corrected since',
  othersWait: 'Ground with it and waiting for its result:',
  groundWithHeld: 'ground with meat on hold',
  waitsFor: (ticket: string, other: string, batch: string) =>
    `${ticket} was ground in batch ${batch} with ${other}, which is on hold. It is not set ready or handed over before that result is in.`,
  waitsForPositive: (ticket: string, other: string, batch: string) =>
    `${ticket} was ground in batch ${batch} with ${other}, which tested positive. It is not handed over: your wildlife agency or the health department says what happens to it.`,

  positive: 'Tested positive',
  deeds: {
    called: 'Hunter called',
    kept: 'Kept at the shop',
    discarded: 'Discarded',
    returned: 'Returned to the shop',
  },
  steps: 'What to do, in this order',

  dispose: 'Record disposal',
  disposeQuiet: 'Record disposal',
  what: 'What was disposed of',
  whatUsual: 'All of it',
  how: 'How and where',
  howHint: 'For example: lined landfill, double-bagged; taken by the wildlife agency.',
  day: 'On',
  disposalReason: 'Why',
  disposalReasonHint: 'For example: spoiled, condemned by the inspector. It goes into the record book.',
  final: (ticket: string) =>
    `${ticket} leaves the rail for good, and the fat saved from it with it. The record book keeps its record.`,
  disposed: (ticket: string) => `${ticket} is recorded as disposed of.`,
  disposedOn: (what: string, day: string, how: string) => `${what}: disposed of on ${day}. ${how}.`,
  because: (reason: string) => `Why: ${reason}.`,

  setting: 'Cut animals on hold before the result',
  settingYes: 'Yes, by themselves',
  settingNo: 'No, they wait',
  settingWhy:
    'Official advice is to wait. Cut before the result, such an animal is ground by itself, and the grinder is taken apart and cleaned after it, before the next; that is recorded. Either way it is not handed over before the result is in.',
  settingSource:
    'Meat Processor Deer/Venison Processing Recommendations, Michigan State University Extension, 2022, https://www.canr.msu.edu/resources/meat_processor_deer_venison_processing_protocol_to_prevent_the_spread_of_ch (not cut until the result; processed individually); meat that followed through an uncleaned grinder: Milstein et al., Emerg. Infect. Dis. 31(4), 2025, https://wwwnc.cdc.gov/eid/article/31/4/24-1176-t3',
};
