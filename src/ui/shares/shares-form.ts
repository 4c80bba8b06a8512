import type { AnimalPage, CallInput, ShareBasis } from '../../bridge/contract.ts';

type Input = Omit<CallInput<'shares.save'>, 'by'>;

/** One hunter of the form: an existing one by id, or a new one by name and phone. */
export interface ShareLine {
  key: string;
  hunterId: number | null;
  name: string;
  phone: string;
  typed: string;
}

export const emptyLine = (): ShareLine => ({
  key: crypto.randomUUID(),
  hunterId: null,
  name: '',
  phone: '',
  typed: '',
});

/** The current shares. For an animal that is not shared: the owner and an empty line for the second hunter. */
export function shareLines({ sharers, hunter }: Pick<AnimalPage, 'sharers' | 'hunter'>): ShareLine[] {
  const known = sharers.map(({ hunterId, name, phone, typed }) => ({
    ...emptyLine(),
    hunterId,
    name,
    phone,
    typed,
  }));
  if (known.length > 0) return known;
  const owner = { ...emptyLine(), hunterId: hunter.id, name: hunter.name, phone: hunter.phone, typed: '50' };
  return [owner, { ...emptyLine(), typed: '50' }];
}

/** Lines without a name are ignored. */
export function sharesInput(
  animalId: number,
  basis: ShareBasis,
  lines: readonly ShareLine[],
  reason: string,
): Input {
  const shares = lines
    .filter(({ name }) => name.trim() !== '')
    .map(({ hunterId, name, phone, typed }) => ({
      hunter: hunterId === null ? { name: name.trim(), phone } : { id: hunterId },
      typed: typed.trim(),
    }));
  return { animalId, basis, shares, reason };
}

/** The sum of the percentages, or null if one is invalid or its hunter is not named yet. */
export function percentSum(lines: readonly ShareLine[]): number | null {
  if (lines.some(({ name, typed }) => name.trim() === '' && typed.trim() !== '')) return null;
  const named = lines.filter(({ name }) => name.trim() !== '');
  const read = named.map(({ typed }) => Number(typed.trim().replace(',', '.') || 'none'));
  if (read.some((one) => Number.isNaN(one))) return null;
  return Math.round(read.reduce((total, one) => total + one, 0) * 100) / 100;
}
