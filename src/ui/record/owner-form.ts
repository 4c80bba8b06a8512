import type { AnimalPage, CallInput, HunterCard } from '../../bridge/contract.ts';

type Changes = CallInput<'animals.edit'>['changes'];
type Owner = Pick<HunterCard, 'id' | 'name' | 'address' | 'phone'>;

/** Whose animal it is, as it stands in the fields: text, so that nothing typed is lost. */
export interface OwnerForm {
  /** The owner so far, or another hunter who was picked. */
  picked: Owner;
  name: string;
  address: string;
  phone: string;
  /** What another name in the field means: the same person written wrong, or somebody who is not in the book yet. */
  means: 'same person' | 'new hunter';
}

export function ownerForm(owner: Owner): OwnerForm {
  const { name, address, phone } = owner;
  return { picked: owner, name, address, phone, means: 'same person' };
}

/** Whether the name in the field is not that of the hunter picked. */
export const isRenamed = ({ name, picked }: OwnerForm): boolean => name.trim() !== picked.name;

/** What the fields say otherwise than the record does. */
export function ownerChanges(form: OwnerForm, page: Pick<AnimalPage, 'hunter'>): Changes {
  const { picked, address, phone } = form;
  const name = form.name.trim();
  if (isRenamed(form) && form.means === 'new hunter')
    return { owner: { name, address, phone, email: '', licence: '', refusesPooling: false } };
  return {
    ...(picked.id !== page.hunter.id && { owner: { id: picked.id } }),
    ...(isRenamed(form) && { name }),
    ...(address !== picked.address && { address }),
    ...(phone !== picked.phone && { phone }),
  };
}
