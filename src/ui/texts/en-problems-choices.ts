/** Wordings for choices that were not made and settings that cannot be. */
import type { Wording } from './wording.ts';

export const choiceWording: Readonly<Record<string, Wording>> = {
  'choice.age': () => 'Pick an age from the list, or “Unknown”.',
  'choice.basis': () => 'Pick how this price is charged: per animal, by weight, or once.',
  'choice.brought': () => 'Pick how the animal came in.',
  'choice.currency': () => 'This is no currency. Type its three letters, for example USD or CAD.',
  'season.unknown': () => 'Pick a season from the list.',
  'choice.detail': () => 'Pick whether every part is weighed or only what goes home.',
  'choice.locale': () => 'This way of writing numbers is not known. Type for example en-US or en-CA.',
  'choice.measure': () => 'Pick what to compare by from the list.',
  'choice.origin': () => 'Pick whether it is the hunter’s own or farm stock.',
  'choice.outcome': () => 'Pick what came out: nothing found, positive, or not needed.',
  'choice.part': () => 'Pick which part is on the scale.',
  'choice.sex': () => 'Pick the sex, or “Unknown”.',
  'choice.source': () => 'Pick whether the weight was typed or read from the scale.',
  'choice.stage': () => 'Pick what kind of weight this is, or where the animal is now.',
  'choice.step': () => 'Pick the smallest amount that the scale shows.',
  'choice.theme': () => 'Pick light, dark, or as the computer has it.',
  'choice.unit': () => 'Pick a unit: lb or kg.',
  'choice.use': () => 'Pick what becomes of this piece: steaks, roasts, stew, strips, whole or ground.',
  'choice.zone': () => 'This time zone is not known. Pick one from the list.',
  'money.negative': () => 'An amount cannot be below zero. Leave out the minus.',
  'money.too-much': () => 'That amount is too large for a price. Check the decimal point.',
  'choice.tax-rule': () => 'Pick where tax is rounded: on each line, or once on the whole bill.',
  'price.same-thing': (p) =>
    `“${p.first}” and “${p.second}” charge the same thing of the same animal. Keep one, or say which animals each is for.`,
  'price.no-code': () => 'A price line has no name. Say what it is for.',
  'price.no-unit': () => 'A price by weight needs a unit. Pick lb or kg.',
  'price.not-named': () => 'This price needs to know for what: pick the product, the fat or the extra.',
  'price.amount-or-rate': () => 'A price line is either an amount or a percentage. Fill in one of the two.',
  'price.negative': () => 'A deposit or a smallest charge cannot be below zero. Leave out the minus.',
};
