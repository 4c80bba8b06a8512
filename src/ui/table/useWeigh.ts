import { computed, toRef, watch, type Ref } from 'vue';
import type { AnimalPage, Answer, WeighingRow } from '../../bridge/contract.ts';
import { toast } from '../parts/index.ts';
import { useDrafts } from '../stores/drafts.ts';
import { useShop } from '../stores/shop.ts';
import { text } from '../../words/compiled/window/table.ts';
import { text as weighingText } from '../../words/compiled/window/weighings.ts';
import { typedWithUnit } from '../texts/typed.ts';
import { useCall } from '../calls/useCall.ts';
import { useSaveWeight, type SavedWeight, type TypedWeight } from '../weighing/useSaveWeight.ts';
import { useUndoWeighing } from '../weighing/useUndoWeighing.ts';
import { entryName, firstStage, freshEntry, nextProduct, packagesIn } from '../weighing/entry.ts';
import { nonePartAt, saysNone } from './part-none.ts';
import { useConfirmedWeights } from './confirmed-weights.ts';
import { useCorrecting } from '../weighing/useCorrecting.ts';
import { useDoubt } from '../weighing/useDoubt.ts';
import { usePartNone } from './usePartNone.ts';
import { usePrimalTurn } from './usePrimalTurn.ts';
import { useRestoreReading } from '../weighing/useRestoreReading.ts';
import { weighingName } from '../weighing/weighing-name.ts';

/** The number entry of the Table: the next weight, saving, answering a doubt, correcting, undo. */
export type Weigh = ReturnType<typeof useWeigh>;

export function useWeigh(page: Ref<AnimalPage>) {
  const shop = useShop();
  const drafts = useDrafts();
  const confirmedWeights = useConfirmedWeights();
  const weigh = useCall('table.weigh');
  const correct = useCall('table.correct');
  const undo = useUndoWeighing(weighingText.reasons.undone);
  const restoreReading = useRestoreReading();
  const partNone = usePartNone(page);
  const draft = `table ${page.value.id}`;
  const entry = drafts.of(draft, () => freshEntry(page.value));
  /** A saved weight that is being corrected. */
  const { correcting, meanwhile } = useCorrecting(page, entry);
  const named = (row: Parameters<typeof weighingName>[0]): string => weighingName(row, page.value.primals);

  const what = computed(() =>
    correcting.value ? named(correcting.value) : entryName(entry, page.value.primals),
  );
  /** As typed; otherwise the number of packages that the weight implies. */
  const count = computed({
    get: () => {
      if (entry.count !== '') return entry.count;
      const card = shop.view?.products.find(({ name }) => name === entry.product);
      return packagesIn(entry.typed, card?.packageGrams ?? page.value.instructions.packageGrams, shop.unit);
    },
    set: (typed) => (entry.count = typed),
  });

  const { scale, busy, problem, ask, wrong, emptied, accept, empty, ...saving } = useSaveWeight(
    entry,
    (weight) => (correcting.value ? sendAgain(correcting.value, weight) : send(weight)),
    () => drafts.rest(draft),
  );

  /** Saves the entry. `confirmed` answers a doubt of the desk with yes. Resolves to whether it was saved. */
  async function save(confirmed = false): Promise<boolean> {
    const none = !correcting.value && nonePartAt(entry) !== null && saysNone(entry.typed);
    return none ? saveNone() : saving.save(confirmed);
  }

  async function send(weight: TypedWeight): Promise<Answer<SavedWeight>> {
    const { stage, tare, product, place, primal } = entry;
    const parts = {
      cut: entry.part,
      packed: 'package',
      primal: 'primal',
      received: 'carcass',
      hanging: 'carcass',
    } as const;
    const doubt = problem.value?.code;
    const name = what.value;
    const answer = await weigh.run({
      animalId: page.value.id,
      stage,
      part: parts[stage],
      tareTyped: tare,
      ...weight,
      ...(stage === 'cut' || stage === 'primal' ? { primal: primal || null } : {}),
      ...(stage === 'packed' ? { product, place, count: Number(count.value) || null } : {}),
    });
    if (!answer.ok) return answer;
    const { weighingId, grams } = answer.value;
    // Parts heavier than their animal cannot all be right, even if the last one was confirmed.
    if (weight.confirmed && doubt !== 'weight.over') confirmedWeights.confirmed.add(weighingId);
    toast(text.saved({ weight: shop.format.mass(grams), name }), () => void undo(weighingId));
    if (stage === 'packed' && place.trim()) drafts.lastPlace = place.trim();
    goOn();
    return answer;
  }

  /** States that the animal has none of the selected part. Resolves to whether it was saved. */
  async function saveNone(): Promise<boolean> {
    const part = nonePartAt(entry);
    if (!part) return false;
    problem.value = await partNone.state(part);
    if (problem.value) return false;
    empty();
    drafts.rest(draft);
    return true;
  }

  /** Selects what to weigh next; for primals the page decides once it is reloaded. */
  function goOn(): void {
    if (entry.stage === 'received' || entry.stage === 'hanging')
      entry.stage = firstStage(page.value, entry.stage);
    else if (entry.stage === 'packed') {
      entry.product = nextProduct(page.value, entry.product);
      entry.count = '';
    }
  }
  usePrimalTurn(page, entry, () => drafts.rest(draft));

  /** Replaces a saved weight. */
  async function sendAgain(row: WeighingRow, weight: TypedWeight): Promise<Answer<SavedWeight>> {
    const tared = entry.tare === (row.tareTyped ?? '') ? {} : { tareTyped: entry.tare };
    const answer = await correct.run({
      weighingId: row.id,
      reason: weighingText.reasons.again,
      ...weight,
      ...tared,
    });
    if (!answer.ok) return answer;
    const { weighingId, grams } = answer.value;
    if (weight.confirmed) confirmedWeights.confirmed.add(weighingId);
    toast(
      text.corrected({
        name: named(row),
        weight: shop.format.mass(grams),
        typed: typedWithUnit(row.typed, row.unit),
      }),
      () => void restoreReading(row, weighingId),
    );
    entry.tare = '';
    entry.correcting = null;
    return answer;
  }

  /** The carcass has a hanging weight, so the new one corrects it. */
  async function hungAgain(): Promise<boolean> {
    const row = page.value.weighings.findLast(({ stage, voided }) => stage === 'hanging' && !voided);
    if (!row) return save();
    // If the new weight is doubted too, the answer is about this correction.
    entry.correcting = row.id;
    const done = await save();
    if (done) goOn();
    return done;
  }
  const answers = useDoubt(ask, toRef(entry, 'typed'), {
    save: () => save(true),
    accept,
    again: empty,
    hungAgain,
  });

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

  // A refusal concerns the text as it was.
  watch(
    () => [entry.typed, entry.stage, entry.part, entry.primal],
    () => (problem.value = null),
  );
  // The level of detail changed, so the next weight may differ.
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
    meanwhile,
    count,
    ask,
    answers,
    wrong,
    what,
    emptied,
    busy,
    save,
    saveNone,
    empty,
    startCorrecting,
    stopCorrecting,
  };
}
