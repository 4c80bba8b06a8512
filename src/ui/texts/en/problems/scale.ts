/** Messages about an unreadable line from the scale. */
import type { Wording } from '../../wording.ts';

const SHOW = 'Show it in the Shop where the weight is';
const OR_TYPE = 'or type the weight';

export const scaleWording: Readonly<Record<string, Wording>> = {
  'scale.empty': () => `The scale sent an empty line. Wait for the next, ${OR_TYPE}.`,
  'scale.noise': () =>
    `What the scale sends is damaged. Check its cable, its speed and its parity, ${OR_TYPE}.`,
  'scale.no-weight': (p) => `The scale sent no weight (“${p.line}”). ${SHOW}, ${OR_TYPE}.`,
  'scale.ambiguous': (p) => `The scale sends more than one number (“${p.line}”). ${SHOW}, ${OR_TYPE}.`,
  'scale.no-unit': (p) => `The scale does not say its unit (“${p.line}”). ${SHOW}, and its unit, ${OR_TYPE}.`,
  'scale.no-point': (p) =>
    `It cannot be told where the decimal point is in “${p.line}”. ${SHOW}, and how many digits stand behind the point, ${OR_TYPE}.`,
  'scale.unknown-word': (p) => `The scale sends “${p.word}”, which is not known here. ${SHOW}, ${OR_TYPE}.`,
  'scale.form': (p) =>
    `“${p.line}” is not like the line that was shown. Show it again in the Shop, ${OR_TYPE}.`,
  'scale.mark': () => 'Mark the digits of the weight, from the first to the last.',
  'scale.decimals': (p) => `A scale cannot show ${p.decimals} decimals. Choose 0 to 4.`,
  'scale.clock': () => `The readings of the scale came out of order. Wait for the next, ${OR_TYPE}.`,
};
