// @vitest-environment happy-dom
/** Restoring a backup with an invalid date: the window offers to restore its records. */
import { beforeEach, expect, it, vi } from 'vitest';
import type { Answer, BackupRow } from '../../../src/bridge/contract.ts';
import RestoreDialog from '../../../src/ui/backup/RestoreDialog.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const row = { path: '/b/shop', at: '2026-11-20T15:00:00.000Z', locked: false } as BackupRow;
const held = {
  animals: 2,
  weighings: 5,
  payments: 0,
  lastEntry: null,
  own: true,
  shop: '',
  holdsRemoved: false,
};

const buttonSaying = (text: string): HTMLButtonElement => {
  const found = [...document.querySelectorAll('button')].find((one) => one.textContent.includes(text));
  if (!found) throw new Error(`no button says ${text}: ${document.body.textContent}`);
  return found;
};

it('offers the records of a backup with an invalid date, and states how many entries were repaired', async () => {
  desk.answers['shop.tryBackup'] = ({ recordsOnly }) =>
    recordsOnly
      ? ok({
          ...held,
          repaired: [
            { table: 'weighing', column: 'at', rows: 2 },
            { table: 'payment', column: 'paid_on', rows: 1 },
          ],
        })
      : { ok: false, problem: { kind: 'broken', code: 'backup.times', with: { path: row.path } } };
  mountPart(RestoreDialog, { props: { row, folder: '', open: true } });
  await vi.waitFor(() => expect(document.body.textContent).toContain('a date or time that cannot be read'));
  buttonSaying('only its records').click();
  await vi.waitFor(() =>
    expect(document.body.textContent).toContain('In 3 entries, a date or time could not be read.'),
  );
  expect(buttonSaying('Open its records in a clean book').disabled).toBe(false);
});

it('says that it reads the backup until that is done', async () => {
  const read = Promise.withResolvers<Answer<unknown>>();
  desk.answers['shop.tryBackup'] = () => read.promise;
  mountPart(RestoreDialog, { props: { row, folder: '', open: true } });
  const reading = () => document.querySelector('[role="dialog"] [role="status"]')?.textContent;
  await vi.waitFor(() => expect(reading()).toContain('Reading this backup'));
  read.resolve(ok({ ...held, repaired: [] }));
  await vi.waitFor(() => expect(document.body.textContent).toContain('Checked just now and complete'));
  expect(reading()).toBeUndefined();
});
