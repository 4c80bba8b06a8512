import { describe, expect, it } from 'vitest';
import type { HunterCard } from '../../../src/bridge/contract.ts';
import { isRenamed, ownerChanges, ownerForm } from '../../../src/ui/record/owner-form.ts';

const hunter = (more: Partial<HunterCard> = {}): HunterCard => ({
  id: 1, name: 'Dana Whitlock', phone: '555', email: '', address: 'Mill Lane 4', licence: '', language: '',
  animals: 1, refusesPooling: false, lastTicket: null, ...more,
}); // prettier-ignore
const page = { hunter: hunter() };

describe('changing the owner of a record', () => {
  it('sends nothing without changes', () => expect(ownerChanges(ownerForm(page.hunter), page)).toEqual({}));

  it('sends a corrected name or address', () => {
    const form = { ...ownerForm(page.hunter), name: ' Dana Whitlow ', phone: '556' };
    expect(isRenamed(form)).toBe(true);
    expect(ownerChanges(form, page)).toEqual({ name: 'Dana Whitlow', phone: '556' });
  });

  it('sends another hunter of the book, as stored', () => {
    const ada = hunter({ id: 2, name: 'Ada Mabry', phone: '9', address: '' });
    expect(ownerChanges(ownerForm(ada), page)).toEqual({ owner: { id: 2 } });
    expect(ownerChanges({ ...ownerForm(ada), address: 'Hill 1' }, page)).toEqual({
      owner: { id: 2 },
      address: 'Hill 1',
    });
  });

  it('sends a new hunter', () => {
    const form = {
      ...ownerForm(page.hunter),
      name: 'Wes Rourke',
      address: '',
      phone: '7',
      means: 'new hunter' as const,
    };
    expect(ownerChanges(form, page)).toEqual({
      owner: { name: 'Wes Rourke', address: '', phone: '7', email: '', licence: '', refusesPooling: false },
    });
  });
});
