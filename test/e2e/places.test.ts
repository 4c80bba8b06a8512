/** Every route and every dialog is in the list of places that the browser tests visit. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { createMemoryHistory, createRouter } from 'vue-router';
import { routes } from '../../src/ui/router.ts';
import { PLACES, type Subjects } from './places.ts';

const UI = join(import.meta.dirname, '../../src/ui');
/** Dialogs that the demo season cannot open, and which test opens them. */
const ELSEWHERE = [
  'ledger/rebuild/RebuildDialog.vue', // ledger.test.ts
  'leaving/NoticeDialog.vue', // Only if a notice is due: counter.test.ts.
  'leaving/DonateDialog.vue', // Only for packed meat: counter.test.ts.
  'belongings/EndDialog.vue', // Only with a belonging: counter.test.ts.
  'holds/AffectedDialog.vue', // Only if a positive result affects others: ground-with-positive.test.ts.
  'backup/LockCard.vue', // Only with a second folder for backups: below in Shop, the same fields as any dialog.
  'drafts/DraftTaken.vue', // Only with a check-in that waits: check-ins.test.ts.
  'photos/PhotoList.vue', // Only with a photograph: photos.test.ts.
  'stations/EditStation.vue', // Only with a station: stations-office.test.ts.
  'stations/PinDialog.vue', // Only while stations are on: stations-office.test.ts.
  'grinder/PastLots.vue', // Only with fat past its use-by date: test/ui/grinder/past-lots.test.ts.
];
const subjects: Subjects = {
  suspect: '26-0001', plain: '26-0002', held: '26-0003', packed: '26-0004', billed: '26-0005', batch: 1, ground: 2, quote: 3, payment: 4, debtor: 5, made: 6, load: 7, log: 8,
}; // prettier-ignore

/** Needs a ledger (ledger.test.ts). */
const WITH_A_LEDGER = '/season/shops';

it('include every route', () => {
  const router = createRouter({ history: createMemoryHistory(), routes: [...routes] });
  const looked = new Set(PLACES.map(({ at }) => router.resolve(at(subjects)).matched[0]?.path));
  const missing = routes.filter(
    ({ path, redirect }) => !redirect && path !== WITH_A_LEDGER && !looked.has(path),
  );
  expect(missing.map(({ path }) => path)).toEqual([]);
});

it('include every dialog', () => {
  const withSheet = globSync('**/*.vue', { cwd: UI }).filter((file) =>
    /<(Reason)?Dialog\b/.test(readFileSync(join(UI, file), 'utf8')),
  );
  const opened = [...PLACES.flatMap(({ sheet }) => sheet ?? []), ...ELSEWHERE];
  // Those of a station's page are opened by the tests in test/e2e/station.
  const looked = withSheet.filter((file) => !/^(parts|samples|station)\//.test(file));
  expect(looked.toSorted()).toEqual(opened.toSorted());
});

it('have unique names', () => {
  const names = PLACES.map(({ name }) => name);
  expect(names).toEqual([...new Set(names)]);
});
