import { computed, reactive } from 'vue';
import type { Problem } from '../../bridge/contract.ts';
import { useCall } from '../calls/useCall.ts';
import { useLive } from '../use/useLive.ts';

/**
 * What is in a product besides what was weighed in, as the book has it: products put away as well, because an old
 * package still holds what it holds. `known` is false until the book has answered: no label may be printed before.
 */
export function useRecipes() {
  const { value: shelf, problem } = useLive('shelf.get', () => ({}));
  const saveCall = useCall('products.save');
  /** By product: why its text could not be kept. */
  const refused = reactive<Record<string, Problem | undefined>>({});

  const find = (product: string) =>
    shelf.value?.products.find(({ name }) => name.toLowerCase() === product.trim().toLowerCase());
  const of = (product: string): string => find(product)?.ingredients ?? '';

  /**
   * Keeps the text with the product, or makes a product of that name. What is ground and seasoned is mostly sausage:
   * common practice, no source; the kind can be changed where products are listed.
   */
  async function save(product: string, ingredients: string, ground: boolean): Promise<void> {
    const known = find(product);
    refused[product] = undefined;
    if (ingredients.trim() === (known?.ingredients ?? '')) return;
    const answer = await saveCall.run({
      name: known?.name ?? product,
      ...(known ? { code: known.code } : { kind: ground ? 'sausage' : 'whole cuts' }),
      ingredients,
    });
    if (!answer.ok) refused[product] = answer.problem;
  }

  return { of, save, refused, problem, known: computed(() => shelf.value !== null) };
}
