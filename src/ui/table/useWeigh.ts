import { computed, ref, shallowRef, toRef, watch, type Ref } from 'vue';
import type { AnimalPage, CallInput, Problem, WeighingRow } from '../../bridge/contract.ts';
import { toast } from '../parts/index.ts';
import { useScaleEntry } from '../scale/useScaleEntry.ts';
import { say } from '../say.ts';
import { useDrafts } from '../stores/drafts.ts';
import { useShop } from '../stores/shop.ts';
import { tableText as text } from '../texts/en-table.ts';
import { weighingText } from '../texts/en-weighings.ts';
import { typedWithUnit } from '../texts/typed.ts';
import { useCall } from '../use/useCall.ts';
import { entryName, firstStage, freshEntry, nextProduct, packagesIn } from './entry.ts';
import { nonePartAt, saysNone } from './part-none.ts';
import { useStoodBy } from './stood-by.ts';
import { useDoubt } from './useDoubt.ts';
import { usePartNone } from './usePartNone.ts';
import { usePrimalTurn } from './usePrimalTurn.ts';
import { usePutBack } from './usePutBack.ts';
import { weighingName } from './weighing-name.ts';

/** The number entry of the table: what is weighed next, keeping it, answering a doubt, correcting, undoing. */
export type Weigh = ReturnType<typeof useWeigh>;

export function useWeigh(page: Ref<AnimalPage>) {
  const shop = useShop();
  const drafts = useDrafts();
  const stoodBy = useStoodBy();
  const weigh = useCall('table.weigh');
  const correct = useCall('table.correct');
  const take = useCall('table.void');
  const putBack = usePutBack();
  const partNone = usePartNone(page);
  const draft = `table ${page.value.id}`;
  const entry = drafts.of(draft, () => freshEntry(page.value));
  const scale = useScaleEntry(toRef(entry, 'typed'), toRef(entry, 'taken'));
  /** A kept weight that is being weighed again. */
  const correcting = computed(
    () => page.value.weighings.find(({ id, voided }) => id === entry.correcting && !voided) ?? null,
  );
  const problem = shallowRef<Problem | null>(null);
  const kept = ref(0);
  const named = (row: Parameters<typeof weighingName>[0]): string => weighingName(row, page.value.primals);

  const ask = computed(() => (problem.value?.kind === 'conflict' ? problem.value : null));
  const wrong = computed(() =>
    problem.value && problem.value.kind !== 'conflict' ? say(problem.value, shop.format) : '',
  );
  const what = computed(() =>
    correcting.value ? named(correcting.value) : entryName(entry, page.value.primals),
  );
  /** As typed, else as many packages as the weight makes. */
  const count = computed({
    get: () => {
      if (entry.count !== '') return entry.count;
      const card = shop.look?.products.find(({ name }) => name === entry.product);
      return packagesIn(entry.typed, card?.packageGrams ?? page.value.instructions.packageGrams, shop.unit);
    },
    set: (typed) => (entry.count = typed),
  });

  /** Keeps the weight as typed. `sure` answers a doubt of the desk with yes. Resolves to whether it was kept. */
  async function keep(sure = false): Promise<boolean> {
    if (correcting.value) return keepCorrection(correcting.value, sure);
    if (nonePartAt(entry) && saysNone(entry.typed)) return keepNone();
    const doubt = problem.value?.code;
    const answer = await weigh.run({ ...entryInput(), sure });
    problem.value = answer.ok ? null : answer.problem;
    if (!answer.ok) return false;
    const { weighingId, grams } = answer.value;
    // Parts that outweigh their animal cannot all be right, however sure one is of the last.
    if (sure && doubt !== 'weight.over') stoodBy.confirmed.add(weighingId);
    toast(text.kept(shop.format.mass(grams), what.value), () => void undo(weighingId));
    if (entry.stage === 'packed' && entry.place.trim()) drafts.lastPlace = entry.place.trim();
    goOn();
    empty();
    drafts.rest(draft);
    return true;
  }

  /** Keeps that the animal has none of the part that the entry stands at. Resolves to whether it was kept. */
  async function keepNone(): Promise<boolean> {
    const part = nonePartAt(entry);
    if (!part) return false;
    problem.value = await partNone.state(part);
    if (problem.value) return false;
    empty();
    drafts.rest(draft);
    return true;
  }

  /** What comes on the scale after what was just kept; of primals the page knows, once it is fresh. */
  function goOn(): void {
    if (entry.stage === 'received' || entry.stage === 'hanging')
      entry.stage = firstStage(page.value, entry.stage);
    else if (entry.stage === 'packed') {
      entry.product = nextProduct(page.value, entry.product);
      entry.count = '';
    }
  }
  usePrimalTurn(page, entry, () => drafts.rest(draft));

  async function keepCorrection(row: WeighingRow, sure: boolean): Promise<boolean> {
    const tared = entry.tare === (row.tareTyped ?? '') ? {} : { tareTyped: entry.tare };
    const answer = await correct.run({
      weighingId: row.id,
      typed: entry.typed,
      source: scale.source.value,
      reason: weighingText.reasons.again,
      sure,
      ...tared,
    });
    problem.value = answer.ok ? null : answer.problem;
    if (!answer.ok) return false;
    const { weighingId, grams } = answer.value;
    if (sure) stoodBy.confirmed.add(weighingId);
    toast(
      text.corrected(named(row), shop.format.mass(grams), typedWithUnit(row.typed, row.unit)),
      () => void putBack(row, weighingId),
    );
    stopCorrecting();
    return true;
  }

  function entryInput(): CallInput<'table.weigh'> {
    const { stage, typed, tare, product, place, primal } = entry;
    const packed = stage === 'packed' ? { product, place, count: Number(count.value) || null } : {};
    const part =
      stage === 'cut'
        ? entry.part
        : stage === 'packed'
          ? 'package'
          : stage === 'primal'
            ? 'primal'
            : 'carcass';
    return {
      animalId: page.value.id,
      stage,
      part,
      typed,
      tareTyped: tare,
      source: scale.source.value,
      ...(stage === 'cut' || stage === 'primal' ? { primal: primal || null } : {}),
      ...packed,
    };
  }

  async function undo(weighingId: number): Promise<void> {
    const answer = await take.run({ weighingId, reason: weighingText.reasons.undone });
    if (!answer.ok) toast(say(answer.problem, shop.format));
  }

  /** Takes what was probably meant, and keeps it. */
  async function accept(likely: string): Promise<boolean> {
    entry.typed = likely;
    return keep();
  }

  /** The carcass was weighed before: the new weight corrects that one. */
  async function hungAgain(): Promise<boolean> {
    const row = page.value.weighings.findLast(({ stage, voided }) => stage === 'hanging' && !voided);
    if (!row) return keep();
    // Should the new weight be doubted too, a yes is about this correction.
    entry.correcting = row.id;
    const done = await keepCorrection(row, false);
    if (done) goOn();
    return done;
  }
  const answers = useDoubt(ask, toRef(entry, 'typed'), { keep, accept, empty, hungAgain });

  function startCorrecting(row: WeighingRow): void {
    entry.correcting = row.id;
    entry.typed = '';
    entry.tare = row.tareTyped ?? '';
    problem.value = null;
  }
  function stopCorrecting(): void {
    if (entry.correcting !== null) entry.tare = '';
    entry.correcting = null;
    empty();
    drafts.rest(draft);
  }
  function empty(): void {
    entry.typed = '';
    problem.value = null;
    kept.value++;
  }

  // A refusal is about the text as it stood.
  watch(
    () => [entry.typed, entry.stage, entry.part, entry.primal],
    () => (problem.value = null),
  );
  // Weighed more or less closely from now on: something else may be next.
  watch(
    () => page.value.detail,
    () => {
      if (entry.typed !== '') return;
      entry.stage = firstStage(page.value);
      entry.product = nextProduct(page.value);
    },
  );

  return {
    entry,
    scale,
    correcting,
    count,
    ask,
    answers,
    wrong,
    what,
    kept,
    busy: weigh.busy,
    keep,
    keepNone,
    empty,
    startCorrecting,
    stopCorrecting,
  };
}
