/** An ingredient as text fields. */
import type { Allergen, CureClass, IngredientCard, IngredientInput } from '../../../bridge/contract.ts';
import { percentText, readPercent } from '../../texts/percent.ts';

/** What the packet says of allergens. */
export type AllergenWay = 'none' | 'listed' | 'by-parts' | 'unknown';

export interface IngredientForm {
  name: string;
  kind: IngredientInput['kind'];
  /** Ids in the order of the packet. */
  parts: number[];
  /** The packet of a blend was not read. */
  unread: boolean;
  way: AllergenWay;
  allergens: Allergen[];
  /** The nut, the fish or the crustacean, by its allergen. */
  kinds: Partial<Record<Allergen, string>>;
  nitrite: string;
  nitrate: string;
  accelerator: string;
  salt: string;
  uses: CureClass[];
  note: string;
}

export const STRENGTHS = ['nitrite', 'nitrate', 'accelerator', 'salt'] as const;

const shown = (share: number | null | undefined): string => (share == null ? '' : percentText(share));

/** A stored ingredient as editable text, or a new one: nothing is known of it. */
export function typeIngredient(row: IngredientCard | null): IngredientForm {
  const { allergens = 'unknown' as const, cure, parts = [] } = row ?? {};
  const listed = typeof allergens === 'string' ? [] : allergens;
  return {
    name: row?.name ?? '',
    kind: row?.kind ?? 'plain',
    parts: [...(parts ?? [])],
    unread: parts === null,
    way: typeof allergens === 'string' ? allergens : listed.length > 0 ? 'listed' : 'none',
    allergens: listed.map(({ allergen }) => allergen),
    kinds: Object.fromEntries(listed.map(({ allergen, kind }) => [allergen, kind])),
    nitrite: shown(cure?.nitrite),
    nitrate: shown(cure?.nitrate),
    accelerator: shown(cure?.accelerator),
    salt: shown(cure?.salt),
    uses: [...(cure?.uses ?? [])],
    note: row?.note ?? '',
  };
}

/** The ingredient, or null where a percentage cannot be read. An empty strength is one that was not read, never zero. */
export function readIngredient(form: IngredientForm, row: IngredientCard | null): IngredientInput | null {
  const { name, kind, parts, unread, way, allergens, kinds, uses, note } = form;
  const agents = kind === 'cure' || kind === 'accelerator';
  const read = STRENGTHS.map((agent) =>
    form[agent].trim() === '' ? null : (readPercent(form[agent]) ?? NaN),
  );
  if (agents && read.some(Number.isNaN)) return null;
  const [nitrite = null, nitrate = null, accelerator = null, salt = null] = read;
  return {
    name: name.trim(),
    kind,
    parts: kind === 'plain' ? [] : unread ? null : parts,
    allergens:
      way === 'none'
        ? []
        : way === 'listed'
          ? allergens.map((allergen) => ({ allergen, kind: kinds[allergen]?.trim() ?? '' }))
          : way,
    cure: agents
      ? {
          nitrite,
          nitrate,
          accelerator,
          salt,
          nitriteAs: row?.cure?.nitriteAs ?? 'sodium',
          typed: form.nitrite.trim() && `${form.nitrite.trim().replace('%', '')}%`,
          uses: uses.length > 0 ? uses : null,
        }
      : null,
    note,
  };
}
