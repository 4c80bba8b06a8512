/** What a phone's form sends, as the desk takes it. */
import type { DraftSheet, DraftWay } from '../../../desk/contract/contract.ts';
import type { HunterLanguage } from '../../../words/hunter-language.ts';

/** The fields of the form, as typed. */
export type Typed = Readonly<Record<string, string>>;

/** The ways to cut that fit a species. */
export const waysFor = ({ ways }: DraftSheet, species: string): DraftWay[] =>
  ways.filter(({ fits }) => fits.includes(species));

/** @param slip the number of the slip that hangs with the animal; '' for none */
export function draftOf(typed: Typed, sheet: DraftSheet, language: HunterLanguage, slip: string): unknown {
  const { name, phone, tag, species = '', sex, killDate, killArea, cuts, note = '' } = typed;
  // By its title: the shop may change its list while somebody types.
  const way =
    cuts === 'usual' ? sheet.usual : waysFor(sheet, species).find(({ title }) => `way ${title}` === cuts);
  return {
    language,
    name,
    phone,
    tag,
    species,
    sex,
    killDate: killDate || null,
    killArea,
    ...(way && { instructions: { ...way.instructions, note } }),
    ...(slip && { slip }),
  };
}
