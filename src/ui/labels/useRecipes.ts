import { computed, reactive } from 'vue';
import type { Problem } from '../../bridge/contract.ts';
import { useCall } from '../calls/useCall.ts';
import { useLive } from '../use/useLive.ts';

/**
 * The ingredients of each product besides what is weighed in, archived products included, because old packages may
 * need a label. `known` is false until the book has answered; no label may be printed before that.
 */
export function useRecipes() {
  const { value: shelf, problem } = useLive('shelf.get', () => ({}));
  const saveCall = useCall('products.save');
  /** By product: why its text could not be saved. */
  const refused = reactive<Record<string, Problem | undefined>>({});

  const find = (product: string) =>
    shelf.value?.products.find(({ name }) => name.toLowerCase() === product.trim().toLowerCase());
  const of = (product: string): string => find(product)?.ingredients ?? '';

  /**
   * Saves the text with the product, or adds a product of that name. Its kind is sausage, because most seasoned
   * ground meat is (common practice, no source); the kind can be changed in the list of products.
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
