import { describe, expect, it } from 'vitest';
import type { HunterCard } from '../../../src/bridge/contract.ts';
import { isRenamed, ownerChanges, ownerForm } from '../../../src/ui/record/owner-form.ts';

const hunter = (more: Partial<HunterCard> = {}): HunterCard => ({
  id: 1, name: 'Dana Whitlock', phone: '555', email: '', address: 'Mill Lane 4', licence: '',
  animals: 1, refusesPooling: false, lastTicket: null, ...more,
}); // prettier-ignore
const page = { hunter: hunter() };

describe('the owner of a record being mended', () => {
  it('says nothing while nothing is changed', () =>
    expect(ownerChanges(ownerForm(page.hunter), page)).toEqual({}));

  it('is written otherwise, or lives elsewhere', () => {
    const form = { ...ownerForm(page.hunter), name: ' Dana Whitlow ', phone: '556' };
    expect(isRenamed(form)).toBe(true);
    expect(ownerChanges(form, page)).toEqual({ name: 'Dana Whitlow', phone: '556' });
  });

  it('is another hunter of the book, as that one is written there', () => {
    const ada = hunter({ id: 2, name: 'Ada Mabry', phone: '9', address: '' });
    expect(ownerChanges(ownerForm(ada), page)).toEqual({ owner: { id: 2 } });
    expect(ownerChanges({ ...ownerForm(ada), address: 'Hill 1' }, page)).toEqual({
      owner: { id: 2 },
      address: 'Hill 1',
    });
  });

  it('is somebody new', () => {
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
