import { watch, type Ref } from 'vue';
import type { AnimalPage, PrimalWeighed } from '../../bridge/contract.ts';
import { nextPrimal, type Entry } from '../weighing/entry.ts';

const gramsOf = (primals: readonly PrimalWeighed[], code: string): number =>
  primals.find((primal) => primal.code === code)?.grams ?? 0;

/**
 * Selects the next primal after a save: its other side, or the next unweighed one; after the last, the parts.
 * `moved` is called when the selection changed.
 */
export function usePrimalTurn(page: Ref<AnimalPage>, entry: Entry, moved: () => void): void {
  watch(
    () => page.value.primals,
    (now, before) => {
      if (entry.stage !== 'primal' || entry.typed !== '') return;
      if (gramsOf(now, entry.primal) <= gramsOf(before, entry.primal)) return;
      const otherSide = now.some(({ code, oneSide }) => code === entry.primal && oneSide);
      const next = otherSide ? entry.primal : nextPrimal(now, entry.primal);
      entry.primal = next ?? '';
      if (next === null) entry.stage = 'cut';
      moved();
    },
  );
  watch(
    () => entry.stage,
    (now, before) => {
      if (before === 'primal') entry.primal = '';
      if (now === 'primal' && entry.primal === '') {
        const { primals } = page.value;
        entry.primal = nextPrimal(primals) ?? primals.find(({ brought }) => brought > 0)?.code ?? '';
      }
    },
  );
}
