import type { Dice } from '../dice.ts';

/** Cutting orders as the counter takes them; once in a while with a piece that no deer has. */
export function ordersOf(dice: Dice) {
  const primals = dice.onceIn(2)
    ? [{ primal: dice.onceIn(12) ? 'wing' : 'haunch', as: dice.pick(['steaks', 'grind'] as const), size: '' }]
    : [];
  return {
    cutsShare: dice.pick([0.4, 0, 1]), primals, fat: dice.pick(['none', 'pork-back-fat', 'own']), targetFat: dice.pick([null, 0.1]),
    grindProduct: dice.pick(['Ground', 'Breakfast sausage']), packageGrams: 453.59237, extras: dice.onceIn(3) ? ['cape'] : [], note: '',
  }; // prettier-ignore
}
