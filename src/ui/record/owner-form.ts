import type { AnimalPage, CallInput, HunterCard } from '../../bridge/contract.ts';

type Changes = CallInput<'animals.edit'>['changes'];
type Owner = Pick<HunterCard, 'id' | 'name' | 'address' | 'phone'>;

/** The owner as text fields, so that invalid input is not lost. */
export interface OwnerForm {
  /** The current owner, or another hunter that was selected. */
  picked: Owner;
  name: string;
  address: string;
  phone: string;
  /** The meaning of a different name: a corrected spelling, or a new hunter. */
  means: 'same person' | 'new hunter';
}

export function ownerForm(owner: Owner): OwnerForm {
  const { name, address, phone } = owner;
  return { picked: owner, name, address, phone, means: 'same person' };
}

/** Whether the name differs from that of the selected hunter. */
export const isRenamed = ({ name, picked }: OwnerForm): boolean => name.trim() !== picked.name;

/** The changed fields. */
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
