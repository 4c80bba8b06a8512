/** A save as a hand makes it: a weight of trim of an animal on the hook. */
import { animalToWeigh } from './desk-work.ts';
import type { BenchDesk } from './open-desk.ts';

/** So many animals are cut by turns, as in a shop. */
const ON_THE_HOOK = 40;

/** @returns a function that saves one more weight */
export async function weighingAnimal(desk: BenchDesk): Promise<() => Promise<unknown>> {
  const animals: number[] = [];
  for (let i = 0; i < ON_THE_HOOK; i++) animals.push(await animalToWeigh(desk));
  let weighed = 0;
  return () => {
    weighed += 1;
    desk.wait(60);
    const typed = (1 + (weighed % 90) / 100).toFixed(2);
    const animalId = animals[weighed % ON_THE_HOOK] as number;
    return desk.call('table.weigh', { animalId, stage: 'cut', part: 'trim', typed, confirmed: true });
  };
}
