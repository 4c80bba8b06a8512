import type { Instructions, SpeciesCard, TemplateCard } from '../../bridge/contract.ts';

/** One starting point as a button. */
interface Way {
  key: string;
  name: string;
  instructions: Instructions;
}

/**
 * The templates that fit an animal: general ones, and those for its carcass drawing whose primals it has. Without a
 * species, only those that name no primal.
 */
export function fittingTemplates(
  templates: readonly TemplateCard[],
  species: Pick<SpeciesCard, 'body' | 'primals'> | undefined,
): Way[] {
  return templates.flatMap(({ id, name, carcass, instructions }, index) => {
    const fits =
      (carcass === null || carcass === species?.body) &&
      instructions.primals.every(({ primal }) => species?.primals.some(({ code }) => code === primal));
    return fits ? [{ key: `template ${id ?? `supplied ${index}`}`, name, instructions }] : [];
  });
}
