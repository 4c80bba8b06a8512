/** The form of a hunter's own check-in as text and choices, and the draft that it becomes. Pure. */
import type { CallInput, CallOutput, Sex } from '../../../../bridge/contract.ts';
import type { HunterLanguage } from '../../../../words/hunter-language.ts';

export type Sheet = CallOutput<'drafts.begin'>;

export const STEPS = ['you', 'animal', 'cuts', 'sign'] as const;
export type Step = (typeof STEPS)[number];

/** What a hunter wants: the shop's usual way, to say it at the counter, or a template by its place in the list. */
export type Cuts = 'usual' | 'counter' | `way ${number}`;

export interface CheckInForm {
  name: string;
  phone: string;
  licence: string;
  species: string;
  sex: Sex | '';
  tag: string;
  /** The number of the slip that hangs with the animal. */
  slip: string;
  /** `YYYY-MM-DD`; empty: not said. */
  killDate: string;
  killArea: string;
  cuts: Cuts | '';
  note: string;
  /** Path data of SVG. */
  signature: string;
}

export const emptyCheckIn = (): CheckInForm => ({
  name: '', phone: '', licence: '', species: '', sex: '', tag: '', slip: '', killDate: '', killArea: '', cuts: '', note: '', signature: '',
}); // prettier-ignore

/** The steps that a hunter walks through: without terms there is nothing to sign. */
export const stepsOf = ({ terms }: Pick<Sheet, 'terms'>): Step[] =>
  STEPS.filter((step) => step !== 'sign' || terms !== '');

export type Missing = 'name' | 'species' | 'sex' | 'cuts' | 'signature';

/** What a step still needs before the next one. */
export function missingAt(step: Step, form: CheckInForm): Missing[] {
  const needed: Record<Step, readonly Missing[]> = {
    you: ['name'],
    animal: ['species', 'sex'],
    cuts: ['cuts'],
    sign: ['signature'],
  };
  return needed[step].filter((field) => form[field].trim() === '');
}

/** The templates that fit a species, with the choice that each one is. */
export function waysFor(
  { ways }: Sheet,
  code: string,
): { cuts: Cuts; title: string; way: Sheet['ways'][number] }[] {
  return ways.flatMap((way, at) =>
    way.fits.includes(code) ? [{ cuts: `way ${at}` as const, title: way.title, way }] : [],
  );
}

/** The draft as the desk takes it. Requires that nothing is missing. */
export function draftInput(
  form: CheckInForm,
  sheet: Sheet,
  language: HunterLanguage,
): CallInput<'drafts.add'> {
  const { cuts, note, killDate, sex, slip, ...typed } = form;
  const way = cuts === 'usual' ? sheet.usual : sheet.ways[Number(cuts.split(' ')[1])];
  return {
    ...typed,
    language,
    sex: sex || 'unknown',
    killDate: killDate || null,
    ...(slip.trim() && { slip }),
    ...(way && { instructions: { ...way.instructions, note } }),
    terms: sheet.terms,
  };
}
