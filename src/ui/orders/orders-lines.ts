import type {
  AlsoGround,
  FatSourceCard,
  Instructions,
  OrderRecipe,
  PricedLine,
} from '../../bridge/contract.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text as chargesText } from '../../words/compiled/window/charges.ts';
import { text as ordersText } from '../../words/compiled/window/orders.ts';
import type { Format } from '../texts/format.ts';
import { pattyText } from './patty.ts';
import { recipeOfLine } from './recipe-of-line.ts';

/** One line of the instructions: the pieces or product, and how it is processed. */
interface OrderLine {
  kind: 'cut' | 'grind' | 'pack';
  head: string;
  text: string;
}

interface Primal {
  code: string;
  name: string;
}

/**
 * Cutting instructions as short lines: pieces with the same instruction together, then ground products (those with an
 * amount first), then packing.
 * @example { kind: 'cut', head: 'Hind leg, Loin', text: 'steaks ¾ in' }
 */
export function ordersLines(
  orders: Instructions,
  primals: readonly Primal[],
  lists:
    | {
        readonly fatSources: readonly Pick<FatSourceCard, 'code' | 'name'>[];
        readonly extras: readonly PricedLine[];
        readonly recipes: readonly OrderRecipe[];
      }
    | undefined,
  format: Format,
): OrderLine[] {
  const ground =
    orders.cutsShare === 1 && orders.primals.length === 0
      ? []
      : grindLines(orders, lists ?? NO_LISTS, format);
  return [
    ...(orders.primals.length > 0 ? primalLines(orders, primals) : [shareLine(orders.cutsShare, format)]),
    ...ground,
    { kind: 'pack', head: ordersText.packages, text: format.mass(orders.packageGrams) },
    ...Object.entries(orders.pricedExtras).map(([code, count]) => ({
      kind: 'pack' as const,
      head: '',
      text: chargesText.counted({
        extra: lists?.extras.find((one) => one.code === code)?.label ?? code,
        count,
      }),
    })),
    ...orders.extras.map((extra) => ({ kind: 'pack' as const, head: '', text: extra })),
  ];
}

/** The lines as one sentence. */
export function ordersSummary(lines: readonly OrderLine[]): string {
  return lines.map(({ head, text }) => (head ? words.named({ name: head, text }) : text)).join(' · ');
}

function shareLine(cutsShare: number, format: Format): OrderLine {
  if (cutsShare === 0) return { kind: 'cut', head: '', text: ordersText.allGround };
  if (cutsShare === 1) return { kind: 'cut', head: '', text: ordersText.allKept };
  return { kind: 'cut', head: format.share(cutsShare, 0), text: ordersText.partKept };
}

function primalLines({ primals: orders }: Instructions, primals: readonly Primal[]): OrderLine[] {
  const groups = new Map<string, string[]>();
  for (const { primal, as, size } of orders.toSorted(
    (a, b) => Number(a.as === 'grind') - Number(b.as === 'grind'),
  )) {
    const text = ordersText.use({ as, size });
    const name = primals.find(({ code }) => code === primal)?.name ?? primal;
    groups.set(text, [...(groups.get(text) ?? []), name]);
  }
  return [...groups].map(([text, names]) => ({ kind: 'cut', head: names.join(', '), text }));
}

interface GrindLists {
  readonly fatSources: readonly Pick<FatSourceCard, 'code' | 'name'>[];
  readonly recipes: readonly OrderRecipe[];
}

const NO_LISTS: GrindLists = { fatSources: [], recipes: [] };

function grindLines(orders: Instructions, lists: GrindLists, format: Format): OrderLine[] {
  return [
    ...orders.alsoGround.map((also) => ({
      kind: 'grind' as const,
      head: also.product,
      text: madeOf(also, 'trim', lists, format, also.grams),
    })),
    {
      kind: 'grind',
      head: orders.grindProduct,
      text: madeOf(
        { ...orders, product: orders.grindProduct },
        orders.alsoGround.length > 0 ? 'rest' : 'all',
        lists,
        format,
      ),
    },
  ];
}

/** @param of whether it is a given amount of the trim, what is left of it, or all */
function madeOf(
  line: Omit<AlsoGround, 'grams'>,
  of: 'trim' | 'rest' | 'all',
  { fatSources, recipes }: GrindLists,
  format: Format,
  grams = 0,
): string {
  const { fat, targetFat, pattyGrams } = line;
  const recipe = recipeOfLine(recipes, line);
  const made = {
    of: of === 'all' ? ('other' as const) : of,
    mass: format.mass(grams),
    patty: pattyGrams === null ? null : pattyText(pattyGrams, format),
  };
  if (recipe) return ordersText.madeByRecipe({ ...made, name: recipe.name });
  return ordersText.made({
    ...made,
    fat: fat === 'none' ? null : fat === 'own' ? 'own' : 'other',
    name: fatSources.find(({ code }) => code === fat)?.name ?? fat,
    share: targetFat === null ? null : format.share(targetFat),
  });
}
