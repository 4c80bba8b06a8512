import type { Draft } from '../drafts/draft.ts';
import { typeInstructions } from '../orders/instructions-form.ts';
import type { IntakeForm } from './intake-form.ts';

/** What a hunter typed at the check-in as fields of Intake. Weights, and how it came in, are seen at the counter. */
export function fromDraft(draft: Draft, unit: 'lb' | 'kg'): Partial<IntakeForm> {
  const { known, name, phone, licence, language, species, sex, tag, killDate, killArea, instructions } =
    draft;
  return {
    known,
    find: name,
    name,
    phone,
    hunterLicence: licence,
    hunterLanguage: language,
    species,
    sex,
    tag,
    killDate: killDate ?? '',
    killArea,
    ...(instructions && {
      instructions: typeInstructions(instructions, unit),
      standard: instructions.standard === true,
    }),
  };
}
