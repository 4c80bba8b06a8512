import type { AnimalPage, CallInput, RecordField } from '../../bridge/contract.ts';
import { isWholeCarcass } from '../../trade/animal.ts';
import { text } from '../../words/compiled/window/books/record.ts';

type Changes = CallInput<'animals.edit'>['changes'];
type Typed = Exclude<
  keyof Changes,
  'owner' | 'name' | 'address' | 'phone' | 'species' | 'sex' | 'age' | 'legs' | 'origin' | 'brought' | 'parts'
>;
interface TypedField {
  field: Typed;
  label: string;
  type: 'text' | 'date';
  most: number;
}

/** Text fields, in the order of the form. */
const TYPED: readonly TypedField[] = [
  { field: 'licence', label: text.licence, type: 'text', most: 80 },
  { field: 'tag', label: text.tag, type: 'text', most: 80 },
  { field: 'killDate', label: text.killed, type: 'date', most: 10 },
  { field: 'killArea', label: text.killArea, type: 'text', most: 200 },
  { field: 'receivedOn', label: text.received, type: 'date', most: 10 },
  { field: 'promisedOn', label: text.promised, type: 'date', most: 10 },
  { field: 'delivererName', label: text.deliverer, type: 'text', most: 200 },
  { field: 'delivererAddress', label: text.delivererAddress, type: 'text', most: 500 },
];
/** Additional text fields of a picked-up animal. */
const LEFT: readonly TypedField[] = [
  { field: 'givenTo', label: text.handedTo, type: 'text', most: 200 },
  { field: 'releasedOn', label: text.handedOn, type: 'date', most: 10 },
];
export const typedFields = ({ release }: AnimalPage): readonly TypedField[] =>
  release ? [...TYPED, ...LEFT] : TYPED;

type EditForm = Record<Typed, string> &
  Pick<AnimalPage, 'sex' | 'age' | 'legs' | 'origin' | 'brought'> & {
    species: string;
    /** Count of each primal. */
    counts: Record<string, number>;
  };

export function editForm(page: AnimalPage): EditForm {
  return {
    licence: page.licence,
    tag: page.tag,
    killDate: page.killDate ?? '',
    killArea: page.killArea,
    receivedOn: page.receivedOn,
    promisedOn: page.promisedOn ?? '',
    delivererName: page.deliverer.name,
    delivererAddress: page.deliverer.address,
    givenTo: page.release?.to ?? '',
    releasedOn: page.release?.on ?? '',
    species: page.species.code,
    sex: page.sex,
    age: page.age,
    legs: page.legs,
    origin: page.origin,
    brought: page.brought,
    counts: Object.fromEntries(page.parts.map(({ primal, count }) => [primal, count])),
  };
}

/** The changed fields. */
export function editChanges(form: EditForm, page: AnimalPage): Changes {
  const before = editForm(page);
  const { counts, ...plain } = form;
  const changed = (Object.keys(plain) as (keyof typeof plain)[]).filter(
    (field) => form[field] !== before[field],
  );
  const changes = Object.fromEntries(changed.map((field) => [field, form[field]])) as Changes;
  const parts = piecesOf(counts);
  return {
    ...changes,
    ...('killDate' in changes && { killDate: form.killDate || null }),
    ...('promisedOn' in changes && { promisedOn: form.promisedOn || null }),
    ...(!isWholeCarcass(form.brought) && !isSame(parts, piecesOf(before.counts)) && { parts }),
  };
}

type Pieces = NonNullable<Changes['parts']>;
const piecesOf = (counts: Record<string, number>): Pieces =>
  Object.entries(counts)
    .filter(([, count]) => count > 0)
    .map(([primal, count]) => ({ primal, count }));
const isSame = (a: Pieces, b: Pieces): boolean =>
  a.length === b.length &&
  a.every(({ primal, count }) => b.some((one) => one.primal === primal && one.count === count));

/** The first missing field, which gets the focus. */
export function firstMissing(lacks: readonly RecordField[]): Typed | 'owner' | undefined {
  const typed = TYPED.find(({ field }) => lacks.some((lack) => lack === field))?.field;
  return typed ?? (lacks.includes('address') || lacks.includes('phone') ? 'owner' : undefined);
}
