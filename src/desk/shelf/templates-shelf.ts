/** Cutting templates: the supplied ones and the shop's own. */
import * as v from 'valibot';
import suppliedJson from '../../../resources/instructions.json' with { type: 'json' };
import { instructions as instructionsKept } from '../input/input.ts';
import { ordersRead, USUAL_INSTRUCTIONS } from '../animal/instructions.ts';
import type { Session } from '../session/session.ts';
import type { Instructions, TemplateCard, TemplateOnShelf } from '../contract/contract.ts';

interface Supplied {
  name: string;
  carcass: string | null;
  instructions: Partial<Instructions>;
  source: string;
}
const SUPPLIED = suppliedJson as unknown as readonly Supplied[];

/** A pound or half a kilogram: common practice, no source. */
const USUAL_PACKAGE = { lb: 453.59237, kg: 500 } as const;

/** Orders of a hunter who wants what the shop usually does. */
export function usualOrders({ settings }: Pick<Session, 'settings'>): Instructions {
  return { ...USUAL_INSTRUCTIONS, packageGrams: USUAL_PACKAGE[settings.unit] };
}

/** The shop's own first, then the supplied ones. The shop's own replaces a supplied one of the same name. */
export function templatesOnShelf(session: Session): TemplateOnShelf[] {
  const rows = session.book.templates.all();
  const usual = usualOrders(session);
  const own = rows.flatMap(({ id, name, carcass, body, active }): TemplateOnShelf[] => {
    const kept: unknown = JSON.parse(body);
    // Only archived, or invalid.
    if (typeof kept !== 'object' || kept === null) return [];
    const found = v.safeParse(instructionsKept, { ...usual, ...kept });
    if (!found.success) return [];
    const supplied = SUPPLIED.some((one) => isNamesake(one, { name, carcass }));
    return [
      {
        id,
        name,
        carcass,
        instructions: { ...usual, ...ordersRead(session, kept as Partial<Instructions>) },
        supplied,
        offered: active === 1,
      },
    ];
  });
  const supplied = SUPPLIED.filter((one) => !own.some((other) => isNamesake(one, other))).map(
    ({ name, carcass, instructions }): TemplateOnShelf => {
      const row = rows.find((one) => isNamesake(one, { name, carcass }));
      const offered = row?.active !== 0;
      return {
        id: null,
        name,
        carcass,
        instructions: { ...usual, ...instructions },
        supplied: true,
        offered,
      };
    },
  );
  return [...own, ...supplied];
}

/** The offered ones. */
export function templateCards(session: Session): TemplateCard[] {
  return templatesOnShelf(session).filter(({ offered }) => offered);
}

type Named = Pick<TemplateCard, 'name' | 'carcass'>;

/** Of the same name, for the same carcass. */
export function isNamesake(one: Named, other: Named): boolean {
  return one.carcass === other.carcass && one.name.toLowerCase() === other.name.toLowerCase();
}
