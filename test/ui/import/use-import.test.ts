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
