/** Wordings for a line from the scale that cannot be taken for a weight. */
import type { Wording } from './wording.ts';

const AGAIN = 'Wait until the scale is at rest and take it again, or type the weight.';
const SET_UP = 'Set the scale up again, or type the weight.';

export const scaleWording: Readonly<Record<string, Wording>> = {
  'scale.empty': () => `The scale sent nothing. ${AGAIN}`,
  'scale.noise': () => `What the scale sent is garbled. Check its cable and its speed. ${AGAIN}`,
  'scale.no-weight': (p) => `There is no weight in what the scale sent (“${p.line}”). ${AGAIN}`,
  'scale.ambiguous': (p) => `The scale sent more than one number (“${p.line}”). ${SET_UP}`,
  'scale.no-unit': (p) => `The scale does not say its unit (“${p.line}”). ${SET_UP}`,
  'scale.no-point': (p) =>
    `It cannot be told where the decimal point is in “${p.line}”. Say how many decimals the scale shows, or type the weight.`,
  'scale.unknown-word': (p) => `The scale sent “${p.word}”, which is not known here. ${AGAIN}`,
  'scale.form': (p) => `“${p.line}” does not look like what this scale sent before. ${SET_UP}`,
  'scale.mark': () => 'Mark the digits of the weight, from the first to the last.',
  'scale.decimals': (p) => `A scale cannot show ${p.decimals} decimals. Type a whole number from 0.`,
  'scale.clock': () => `The readings of the scale came out of order. ${AGAIN}`,
};
