import type { Age, Brought, CallInput, HunterCard, Instructions, Legs, Sex } from '../../bridge/contract.ts';
import { intakeText } from '../texts/en/animal/intake.ts';
import { isPieceCount } from '../orders/piece-count.ts';
import { usualInstructions, type TypedInstructions } from '../orders/instructions-form.ts';

/** Everything that is typed at intake, as text and choices. */
export interface IntakeForm {
  /** A returning hunter, or null while a new one is typed. */
  known: HunterCard | null;
  /** What stands in the hunter field: a name, or a phone number. */
  find: string;
  name: string;
  phone: string;
  address: string;
  hunterLicence: string;
  refusesPooling: boolean;
  species: string;
  sex: Sex | '';
  age: Age | '';
  brought: Brought | '';
  /** Asked of an animal in its hide. */
  legs: Exclude<Legs, 'unknown'>;
  /** Count of each primal that came in, when not all did. */
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
  /** Whether a returning hunter wants it cut as last time; empty until asked. */
  sameAsLast: 'yes' | 'no' | '';
  instructions: TypedInstructions;
  /** The hunter was asked and wants the shop's standard cuts. */
  standard: boolean;
}

/** An empty form. Species is kept from the last animal by the caller: a season is mostly one kind. */
export function emptyIntake(unit: 'lb' | 'kg'): IntakeForm {
  return {
    known: null, find: '', name: '', phone: '', address: '', hunterLicence: '', refusesPooling: false,
    species: '', sex: '', age: 'unknown', brought: '', legs: 'on', parts: {}, received: '', hanging: '',
    tag: '', killDate: '', killArea: '', sample: '', promisedOn: '', receivedOn: '', condition: '', damage: '',
    origin: 'hunter', detail: 'shop', delivererName: '', delivererAddress: '', sameAsLast: '',
    instructions: usualInstructions(unit), standard: false,
  }; // prettier-ignore
}

/** Whether orders were entered: fields that still stand as the shop would do it are no order. */
export function hasOrders(form: Pick<IntakeForm, 'instructions'>, unit: 'lb' | 'kg'): boolean {
  return JSON.stringify(form.instructions) !== JSON.stringify(usualInstructions(unit));
}

/** Pieces of an animal are counted; of boned meat it may be told which pieces it was. */
export function countsParts(brought: Brought | ''): boolean {
  return brought === 'quarters' || brought === 'primals' || brought === 'boned';
}

/** True if the hunter field holds a phone number rather than a name. */
export function isPhone(text: string): boolean {
  return /\d/.test(text) && !/\p{L}/u.test(text);
}

/** What cannot stay empty, as field name → sentence. The desk checks the rest. */
export function missingIn(
  form: IntakeForm,
): Partial<Record<'hunter' | 'name' | 'species' | 'sex' | 'brought' | 'parts', string>> {
  const { missing } = intakeText;
  const phoneOnly = !form.known && isPhone(form.find);
  return {
    ...(!form.known && form.find.trim() === '' && { hunter: missing.hunter }),
    ...(phoneOnly && form.name.trim() === '' && { name: missing.name }),
    ...(form.species === '' && { species: missing.species }),
    ...(form.sex === '' && { sex: missing.sex }),
    ...(form.brought === '' && { brought: missing.brought }),
    ...(countsParts(form.brought) &&
      form.brought !== 'boned' &&
      partsOf(form).length === 0 && { parts: missing.parts }),
    ...(countsParts(form.brought) &&
      !Object.values(form.parts).every(isPieceCount) && { parts: missing.pieceCount }),
  };
}

/** The form as the desk takes it. Only call it when nothing is missing. */
export function intakeInput(
  form: IntakeForm,
  /** Null where nobody asked the hunter. */
  instructions: Instructions | null,
  more: { quoteId?: number; confirmed?: CallInput<'intake.takeIn'>['confirmed'] },
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

/** The pieces that came in, when they are counted. */
export function partsOf(form: Pick<IntakeForm, 'brought' | 'parts'>): { primal: string; count: number }[] {
  if (!countsParts(form.brought)) return [];
  return Object.entries(form.parts)
    .filter(([, count]) => count > 0)
    .map(([primal, count]) => ({ primal, count }));
}
