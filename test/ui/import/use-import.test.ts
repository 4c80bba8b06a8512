// @vitest-environment happy-dom
/** Choices about an imported file, made faster than the desk answers. */
import { createPinia, setActivePinia } from 'pinia';
import { beforeEach, expect, it, vi } from 'vitest';
import { effectScope } from 'vue';
import type { Answer } from '../../../src/bridge/contract.ts';
import { openBridge } from '../../../src/ui/link/bridge.ts';
import { useImport } from '../../../src/ui/import/useImport.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const LAYOUT = {
  encoding: 'utf-8', separator: ',', headingRow: 1, decimal: 'point', dates: 'MDY', unit: 'lb', columns: {}, always: {}, words: {},
}; // prettier-ignore

beforeEach(async () => {
  setActivePinia(createPinia());
  desk.begin();
  await openBridge();
});

it('a second choice keeps the first, even before the desk has answered it', async () => {
  const pending: ((answer: Answer<unknown>) => void)[] = [];
  desk.answers['import.begin'] = () => ok({ upload: 7 });
  desk.answers['import.addPiece'] = () => ok({});
  desk.answers['import.preview'] = ({ layout }) =>
    layout ? new Promise((answer) => pending.push(answer)) : ok({ layout: LAYOUT, doubtCount: 0 });
  const scope = effectScope();
  const file = scope.run(useImport)!;
  await file.choose(new File(['No,Species\n1,elk'], 'old.csv'));
  file.setColumn('species', 1);
  file.setAlways('brought', 'skinned');
  await vi.waitFor(() => expect(pending).toHaveLength(2));
  expect(desk.calls.at(-1)?.input).toMatchObject({
    layout: { columns: { species: 1 }, always: { brought: 'skinned' } },
  });
  scope.stop();
});

const NEW = 'No,Animal\n1,elk';
/** A file whose headings are its first line, read as the layout asked for; `unreadable` is refused. */
function playFiles(): void {
  let headings: string[] = [];
  desk.answers['import.begin'] = () => ok({ upload: 7 });
  desk.answers['import.addPiece'] = ({ base64 }) => {
    [headings = []] = atob(String(base64))
      .split('\n')
      .map((line) => line.split(','));
    return ok({});
  };
  desk.answers['import.preview'] = ({ layout }) =>
    headings[0] === 'unreadable'
      ? { ok: false, problem: { kind: 'invalid', code: 'sheet.no-rows' } }
      : ok({ name: 'old.csv', headings, layout: layout ?? LAYOUT, doubtCount: 0 });
}
const lastLayout = () =>
  desk.calls.findLast(({ name }) => name === 'import.preview')?.input as { layout?: typeof LAYOUT };

it.each([
  ['at once', []],
  ['after one that could not be read', ['unreadable\n']],
])('a corrected file with the same headings keeps the chosen columns, %s', async (_when, between) => {
  playFiles();
  const scope = effectScope();
  const file = scope.run(useImport)!;
  await file.choose(new File([NEW], 'old.csv'));
  file.setColumn('species', 1);
  await vi.waitFor(() => expect(lastLayout().layout?.columns).toEqual({ species: 1 }));
  for (const text of [...between, `${NEW}\n2,deer`]) await file.choose(new File([text], 'old.csv'));
  expect(file.preview.value?.layout.columns).toEqual({ species: 1 });
  expect(lastLayout().layout?.columns).toEqual({ species: 1 });
  await file.choose(new File(['No,Hunter,Animal\n1,Ann,elk'], 'other.csv'));
  expect(file.preview.value?.layout.columns).toEqual({});
  scope.stop();
});

it('a file that is chosen again after its import was undone keeps the chosen columns', async () => {
  playFiles();
  desk.answers['import.run'] = () => ok({ id: 3 });
  const scope = effectScope();
  const file = scope.run(useImport)!;
  await file.choose(new File([NEW], 'old.csv'));
  file.setColumn('species', 1);
  await vi.waitFor(() => expect(lastLayout().layout?.columns).toEqual({ species: 1 }));
  await file.importFile();
  expect(file.preview.value).toBeNull();
  await file.choose(new File([NEW], 'old.csv'));
  expect(file.preview.value?.layout.columns).toEqual({ species: 1 });
  scope.stop();
});
