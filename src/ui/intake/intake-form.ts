import type { Age, Brought, CallInput, HunterCard, Instructions, Legs, Sex } from '../../bridge/contract.ts';
import type { HunterLanguage } from '../../words/hunter-language.ts';
import { text as intakeText } from '../../words/compiled/window/intake.ts';
import { isPieceCount } from '../orders/piece-count.ts';
import { usualInstructions, type TypedInstructions } from '../orders/instructions-form.ts';

/** The intake form as text and choices. */
export interface IntakeForm {
  /** A returning hunter, or null for a new one. */
  known: HunterCard | null;
  /** The text of the hunter field: a name or a phone number. */
  find: string;
  name: string;
  phone: string;
  address: string;
  hunterLicence: string;
  /** Of what the hunter gets; '' for the shop's. */
  hunterLanguage: HunterLanguage | '';
  refusesPooling: boolean;
  species: string;
  sex: Sex | '';
  age: Age | '';
  brought: Brought | '';
  /** Only for an animal in its hide. */
  legs: Exclude<Legs, 'unknown'>;
  /** Count of each primal of an incomplete animal. */
  parts: Record<string, number>;
  received: string;
  hanging: string;
  tag: string;
  killDate: string;
  killArea: string;
  sample: string;
  promisedOn: string;
  receivedOn: string;
  condition: string;
  damage: string;
  origin: 'hunter' | 'farm';
  /** 'shop': by the shop's setting and the running number. */
  detail: 'shop' | 'detailed' | 'quick';
  delivererName: string;
  delivererAddress: string;
  /** Whether a returning hunter wants the same cuts as last time; empty until answered. */
  sameAsLast: 'yes' | 'no' | '';
  instructions: TypedInstructions;
  /** The hunter was asked and wants the shop's standard cuts. */
  standard: boolean;
}

/** An empty form. The caller keeps the species, because most animals of a season are of one kind. */
export function emptyIntake(unit: 'lb' | 'kg'): IntakeForm {
  return {
    known: null, find: '', name: '', phone: '', address: '', hunterLicence: '', hunterLanguage: '', refusesPooling: false,
    species: '', sex: '', age: 'unknown', brought: '', legs: 'on', parts: {}, received: '', hanging: '',
    tag: '', killDate: '', killArea: '', sample: '', promisedOn: '', receivedOn: '', condition: '', damage: '',
    origin: 'hunter', detail: 'shop', delivererName: '', delivererAddress: '', sameAsLast: '',
    instructions: usualInstructions(unit), standard: false,
  }; // prettier-ignore
}

/** Whether instructions were entered; fields with the shop's defaults are no instructions. */
export function hasOrders(form: Pick<IntakeForm, 'instructions'>, unit: 'lb' | 'kg'): boolean {
  return JSON.stringify(form.instructions) !== JSON.stringify(usualInstructions(unit));
}

/** Whether pieces are counted. For boned meat the pieces are optional. */
export function countsParts(brought: Brought | ''): boolean {
  return brought === 'quarters' || brought === 'primals' || brought === 'boned';
}

/** True if the hunter field contains a phone number rather than a name. */
export function isPhone(text: string): boolean {
  return /\d/.test(text) && !/\p{L}/u.test(text);
}

/** Missing required fields as field name → message. The desk validates the rest. */
export function missingIn(
  form: IntakeForm,
): Partial<Record<'hunter' | 'name' | 'species' | 'sex' | 'brought' | 'parts', string>> {
  const phoneOnly = !form.known && isPhone(form.find);
  return {
    ...(!form.known && form.find.trim() === '' && { hunter: intakeText.missing.hunter }),
    ...(phoneOnly && form.name.trim() === '' && { name: intakeText.missing.name }),
    ...(form.species === '' && { species: intakeText.missing.species }),
    ...(form.sex === '' && { sex: intakeText.missing.sex }),
    ...(form.brought === '' && { brought: intakeText.missing.brought }),
    ...(countsParts(form.brought) &&
      form.brought !== 'boned' &&
      partsOf(form).length === 0 && { parts: intakeText.missing.parts }),
    ...(countsParts(form.brought) &&
      !Object.values(form.parts).every(isPieceCount) && { parts: intakeText.missing.pieceCount }),
  };
}

/** The form as input of the desk. Requires that nothing is missing. */
export function intakeInput(
  form: IntakeForm,
  /** Null if the hunter was not asked. */
  instructions: Instructions | null,
  more: Pick<CallInput<'intake.takeIn'>, 'quoteId' | 'draftId' | 'slip' | 'confirmed'>,
): CallInput<'intake.takeIn'> {
  const phoneOnly = isPhone(form.find);
  return {
    hunter: form.known
      ? { id: form.known.id }
      : {
          name: phoneOnly ? form.name : form.find,
          phone: phoneOnly ? form.find : form.phone,
          address: form.address,
          licence: form.hunterLicence,
          language: form.hunterLanguage,
          refusesPooling: form.refusesPooling,
        },
    species: form.species,
    sex: form.sex || 'unknown',
    age: form.age || 'unknown',
    brought: form.brought || 'whole',
    ...(form.brought === 'whole' && { legs: form.legs }),
    parts: partsOf(form),
    origin: form.origin,
    licence: form.hunterLicence,
    tag: form.tag,
    killDate: form.killDate || null,
    killArea: form.killArea,
    receivedOn: form.receivedOn || null,
    promisedOn: form.promisedOn || null,
    condition: form.condition,
    damage: form.damage,
    ...(form.detail !== 'shop' && { detail: form.detail }),
    ...(form.delivererName.trim() && {
      deliverer: { name: form.delivererName, address: form.delivererAddress },
    }),
    sample: form.sample,
    weights: [
      ...(form.received.trim() ? [{ stage: 'received' as const, typed: form.received }] : []),
      ...(form.hanging.trim() ? [{ stage: 'hanging' as const, typed: form.hanging }] : []),
    ],
    ...(instructions && { instructions }),
    ...more,
  };
}

/** The received pieces, if they are counted. */
export function partsOf(form: Pick<IntakeForm, 'brought' | 'parts'>): { primal: string; count: number }[] {
  if (!countsParts(form.brought)) return [];
  return Object.entries(form.parts)
    .filter(([, count]) => count > 0)
    .map(([primal, count]) => ({ primal, count }));
}
