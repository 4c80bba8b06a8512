import { nextTick, ref } from 'vue';
import { describe, expect, it } from 'vitest';
import type { FatLotRow, LeftOutLot } from '../../../src/desk/contract/contract.ts';
import { usePastLots } from '../../../src/ui/grinder/usePastLots.ts';

function lot(id: number, more: Partial<FatLotRow> = {}): FatLotRow {
  return {
    id, code: `F00${id}`, source: 'beef-suet', name: 'Beef suet', ticket: null, fat: 0.94, costMinor: null,
    costUnit: null, supplierLot: '', useBy: null, receivedOn: '2026-11-01', startGrams: 5000, leftGrams: 1000, keeps: 'good',
    ...more,
  }; // prettier-ignore
}
const old: LeftOutLot = {
  lotId: 1,
  fatName: 'Beef suet',
  lotCode: 'F001',
  ticket: null,
  grams: 1000,
  useBy: '2026-11-02',
};
const onHand = [
  lot(1, { keeps: 'past' }),
  lot(2, { source: 'pork-back-fat' }),
  lot(3, { keeps: 'soon' }),
  lot(4, { ticket: '26-0001' }),
  lot(5, { keeps: 'past' }),
];

describe('fat past its use-by date', () => {
  it('is planned before other lots of the same bought fat once allowed', () => {
    const { lotIds, use, leave } = usePastLots(ref('beef-suet'), ref([7]), () => onHand);
    expect(lotIds.value).toBeUndefined();
    use(old);
    expect(lotIds.value).toEqual([1, 3]);
    leave(old);
    expect(lotIds.value).toBeUndefined();
  });

  it('needs permission again for another fat or another animal', async () => {
    const [fat, ids] = [ref('beef-suet'), ref([7])];
    const { used, use } = usePastLots(fat, ids, () => onHand);
    use(old);
    ids.value.push(8);
    await nextTick();
    expect(used.value).toEqual([]);
    use(old);
    fat.value = 'pork-back-fat';
    await nextTick();
    expect(used.value).toEqual([]);
  });
});
