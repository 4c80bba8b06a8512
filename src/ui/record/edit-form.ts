import type { AnimalPage, CallInput, RecordField } from '../../bridge/contract.ts';
import { recordText as text } from '../texts/en/books/record.ts';

type Changes = CallInput<'animals.edit'>['changes'];
type Typed = Exclude<
  keyof Changes,
  'owner' | 'name' | 'address' | 'phone' | 'species' | 'sex' | 'age' | 'legs' | 'origin'
>;
interface TypedField {
  field: Typed;
  label: string;
  type: 'text' | 'date';
  most: number;
}

/** The fields that are typed, in the order in which they stand. */
const TYPED: readonly TypedField[] = [
  { field: 'licence', label: text.licence, type: 'text', most: 80 },
  { field: 'tag', label: text.tag, type: 'text', most: 80 },
  { field: 'killDate', label: text.killed, type: 'date', most: 10 },
  { field: 'killArea', label: text.killArea, type: 'text', most: 200 },
  { field: 'receivedOn', label: text.received, type: 'date', most: 10 },
  { field: 'delivererName', label: text.deliverer, type: 'text', most: 200 },
  { field: 'delivererAddress', label: text.delivererAddress, type: 'text', most: 500 },
];
/** Those of an animal that was handed over. */
const LEFT: readonly TypedField[] = [
  { field: 'givenTo', label: text.handedTo, type: 'text', most: 200 },
  { field: 'releasedOn', label: text.handedOn, type: 'date', most: 10 },
];
export const typedFields = ({ release }: AnimalPage): readonly TypedField[] =>
  release ? [...TYPED, ...LEFT] : TYPED;

type EditForm = Record<Typed, string> &
  Pick<AnimalPage, 'sex' | 'age' | 'legs' | 'origin'> & { species: string };

export function editForm(page: AnimalPage): EditForm {
  return {
    licence: page.licence,
    tag: page.tag,
    killDate: page.killDate ?? '',
    killArea: page.killArea,
    receivedOn: page.receivedOn,
    delivererName: page.deliverer.name,
    delivererAddress: page.deliverer.address,
    givenTo: page.release?.to ?? '',
    releasedOn: page.release?.on ?? '',
    species: page.species.code,
    sex: page.sex,
    age: page.age,
    legs: page.legs,
    origin: page.origin,
  };
}

/** What the form says otherwise than the record does. */
export function editChanges(form: EditForm, page: AnimalPage): Changes {
  const before = editForm(page);
  const changed = (Object.keys(form) as (keyof EditForm)[]).filter((field) => form[field] !== before[field]);
  const said = Object.fromEntries(changed.map((field) => [field, form[field]])) as Changes;
  return 'killDate' in said ? { ...said, killDate: form.killDate || null } : said;
}

/** Where to begin: the first field that is missing. */
export function firstMissing(lacks: readonly RecordField[]): Typed | 'owner' | undefined {
  const typed = TYPED.find(({ field }) => lacks.some((lack) => lack === field))?.field;
  return typed ?? (lacks.includes('address') || lacks.includes('phone') ? 'owner' : undefined);
}
