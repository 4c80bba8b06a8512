import { plural } from './plural.ts';

/** Words of a hold, of what a positive result asks for, and of disposal. */
export const holdText = {
  title: 'Hold',
  none: 'None.',
  start: 'Put on hold',
  end: 'End the hold',
  over: 'The hold is over.',
  stays: 'The result was positive: the hold stays.',
  since: (moment: string) => `since ${moment}`,
  sampleNumber: (sample: string) => `number ${sample}`,
  apart: 'Keep it apart; it is not released before the result is in.',
  waits: 'This shop does not cut it before then.',
  alone: 'It may be cut, and is ground by itself, never with other animals.',
  notCut:
    'On hold: it is not cut, ground or packed before the result is in. Weights received and hanging can still be taken.',
  why: 'Why',
  sampleSent: 'Sample sent in',
  other: 'Other',
  sample: 'Sample number',
  reason: 'Reason',
  outcome: 'What came out',
  outcomes: { cleared: 'Nothing found', positive: 'Positive', withdrawn: 'Hold not needed' },
  forGood: 'A positive result keeps the hold for good: it cannot be ended afterwards.',
  note: 'Note',
  notNow: 'Not now',

  positive: 'Tested positive',
  steps: 'What to do, in this order',
  pooled: (n: number) =>
    `Its meat went into one batch with that of ${plural(n, 'other animal', 'other animals')}. Tell their hunters:`,
  pooledLine: (batch: string, hunter: string, phone: string) =>
    [`batch ${batch}`, hunter, phone].filter(Boolean).join(', '),

  dispose: 'Record disposal',
  disposeQuiet: 'Dispose of it',
  what: 'What was disposed of',
  whatUsual: 'All of it',
  how: 'How and where',
  howHint: 'For example: lined landfill, double-bagged; taken by the wildlife agency.',
  day: 'On',
  disposalReason: 'Why',
  disposalReasonHint: 'For example: spoiled, condemned by the inspector. It stands in the record book.',
  final: 'It leaves the rail for good, its saved fat with it. The record book keeps it.',
  disposed: (ticket: string) => `${ticket} is recorded as disposed of.`,
  disposedOn: (what: string, day: string, how: string) => `${what}: disposed of on ${day}. ${how}.`,
  because: (reason: string) => `Why: ${reason}.`,

  setting: 'Cut animals on hold before the result',
  settingYes: 'Yes, by themselves',
  settingNo: 'No, they wait',
  settingWhy:
    'Official advice is to wait, or else to process such an animal by itself. Either way it is not handed over before the result is in.',
  settingSource:
    'Chronic wasting disease: prevention, CDC; “ask for individual processing”: CDC advice as relayed at bchealthdept.org, November 2024',
};
