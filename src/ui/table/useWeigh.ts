import { computed, reactive, ref, shallowRef, toRef, watch, type Ref } from 'vue';
import type { AnimalPage, CallInput, CutPart, Problem, WeighingRow } from '../../bridge/contract.ts';
import { toast } from '../parts/index.ts';
import { useScaleEntry } from '../scale/useScaleEntry.ts';
import { say } from '../say.ts';
import { useShop } from '../stores/shop.ts';
import { wordFor, words } from '../texts/en.ts';
import { typedWithUnit } from '../texts/typed.ts';
import { useCall } from '../use/useCall.ts';
import { confirmed } from './believed.ts';

export type EntryStage = 'received' | 'hanging' | 'cut' | 'packed';

/** The number entry of the table: what is weighed next, keeping it, answering a doubt, correcting, undoing. */
export type Weigh = ReturnType<typeof useWeigh>;

export function useWeigh(page: Ref<AnimalPage>) {
  const shop = useShop();
  const weigh = useCall('table.weigh');
  const correct = useCall('table.correct');
  const take = useCall('table.void');
  const entry = reactive({
    stage: firstStage(page.value),
    part: 'whole cuts' as CutPart,
    typed: '',
    tare: '',
    product: firstProduct(page.value),
    count: '1',
  });
  const scale = useScaleEntry(toRef(entry, 'typed'));
  /** A kept weight that is being weighed again. */
  const correcting = shallowRef<WeighingRow | null>(null);
  const problem = shallowRef<Problem | null>(null);
  const kept = ref(0);

  const ask = computed(() => (problem.value?.kind === 'conflict' ? problem.value : null));
  const wrong = computed(() =>
    problem.value && problem.value.kind !== 'conflict' ? say(problem.value, shop.format) : '',
  );
  const what = computed(() => (correcting.value ? weighingName(correcting.value) : entryName(entry)));

  /** Keeps the weight as typed. `sure` answers a doubt of the desk with yes. Resolves to whether it was kept. */
  async function keep(sure = false): Promise<boolean> {
    if (correcting.value) return keepCorrection(correcting.value, sure);
    const doubt = problem.value?.code;
    const answer = await weigh.run({ ...entryInput(), sure });
    problem.value = answer.ok ? null : answer.problem;
    if (!answer.ok) return false;
    const { weighingId, grams } = answer.value;
    // Parts that outweigh their animal cannot all be right, however sure one is of the last.
    if (sure && doubt !== 'weight.over') confirmed.add(weighingId);
    toast(`Kept ${shop.format.mass(grams)} ${what.value.toLowerCase()}.`, () => void undo(weighingId));
    if (entry.stage === 'received' || entry.stage === 'hanging')
      entry.stage = firstStage(page.value, entry.stage);
    empty();
    return true;
  }

  async function keepCorrection(row: WeighingRow, sure: boolean): Promise<boolean> {
    const tared = row.tareTyped === null || entry.tare === row.tareTyped ? {} : { tareTyped: entry.tare };
    const answer = await correct.run({
      weighingId: row.id,
      typed: entry.typed,
      reason: 'weighed again',
      sure,
      ...tared,
    });
    problem.value = answer.ok ? null : answer.problem;
    if (!answer.ok) return false;
    if (sure) confirmed.add(answer.value.weighingId);
    toast(
      `${weighingName(row)} is now ${shop.format.mass(answer.value.grams)} instead of ${typedWithUnit(row.typed, row.unit)}.`,
    );
    stopCorrecting();
    return true;
  }

  function entryInput(): CallInput<'table.weigh'> {
    const { stage, typed, tare } = entry;
    const packed = stage === 'packed' ? { product: entry.product, count: Number(entry.count) || null } : {};
    const part = stage === 'cut' ? entry.part : stage === 'packed' ? 'package' : 'carcass';
    return {
      animalId: page.value.id,
      stage,
      part,
      typed,
      tareTyped: tare,
      source: scale.source.value,
      ...packed,
    };
  }

  async function undo(weighingId: number): Promise<void> {
    const answer = await take.run({ weighingId, reason: 'undone' });
    if (!answer.ok) toast(say(answer.problem, shop.format));
  }

  /** The three answers to a doubt, in the order of their buttons; `y`, `n` and Escape at the entry. */
  const answers = computed<{ key: string; label: string; does: () => unknown }[]>(() => {
    if (!ask.value) return [];
    const likely = ask.value.with?.likely;
    const again = { key: 'Escape', label: 'Weigh again', does: empty };
    if (ask.value.code === 'weight.same-again')
      return [
        { key: 'y', label: 'Yes, a second one', does: () => keep(true) },
        { key: 'n', label: 'No, it is the same one', does: empty },
      ];
    const keepIt = `keep ${typedWithUnit(entry.typed, shop.unit)}`;
    if (likely === undefined)
      return [
        { key: 'y', label: `Yes, ${keepIt}`, does: () => keep(true) },
        { key: 'n', label: 'No, weigh again', does: empty },
      ];
    const meant = String(likely);
    return [
      { key: 'y', label: `Yes, make it ${typedWithUnit(meant, shop.unit)}`, does: () => accept(meant) },
      { key: 'n', label: `No, ${keepIt}`, does: () => keep(true) },
      again,
    ];
  });

  /** Takes what was probably meant, and keeps it. */
  async function accept(likely: string): Promise<boolean> {
    entry.typed = likely;
    return keep();
  }

  function startCorrecting(row: WeighingRow): void {
    correcting.value = row;
    entry.typed = '';
    entry.tare = row.tareTyped ?? '';
    problem.value = null;
  }
  function stopCorrecting(): void {
    if (correcting.value) entry.tare = '';
    correcting.value = null;
    empty();
  }
  function empty(): void {
    entry.typed = '';
    problem.value = null;
    kept.value++;
  }

  // A refusal is about the text as it stood.
  watch(
    () => [entry.typed, entry.stage, entry.part],
    () => (problem.value = null),
  );

  return {
    entry,
    scale,
    correcting,
    ask,
    answers,
    wrong,
    what,
    kept,
    busy: weigh.busy,
    keep,
    empty,
    startCorrecting,
    stopCorrecting,
  };
}

/** What is weighed next of an animal that is weighed in the usual order. */
function firstStage(page: AnimalPage, justKept?: EntryStage): EntryStage {
  const weighed = (stage: EntryStage): boolean =>
    stage === justKept || page.weighings.some((row) => row.stage === stage && row.voided === null);
  if (page.stage === 'packing' || page.stage === 'ready') return 'packed';
  if (page.brought === 'boned') return weighed('received') ? 'cut' : 'received';
  if (page.detail === 'quick' && weighed('hanging')) return 'packed';
  return weighed('hanging') || weighed('cut') ? 'cut' : 'hanging';
}

function firstProduct(page: AnimalPage): string {
  return page.detail === 'quick' ? page.instructions.grindProduct : 'Steaks and roasts';
}

function entryName({ stage, part, product }: { stage: EntryStage; part: CutPart; product: string }): string {
  if (stage === 'cut') return words.part[part];
  return stage === 'packed' ? product : words.weighStage[stage];
}

/** What a kept weight is of, in words. */
export function weighingName(row: Pick<WeighingRow, 'stage' | 'part' | 'product' | 'primal'>): string {
  if (row.stage === 'packed') return row.product ?? words.weighStage.packed;
  if (row.stage === 'primal') return row.primal ?? words.weighStage.primal;
  if (row.stage === 'cut') return wordFor(words.part, row.part);
  return row.stage === 'grinder'
    ? `${wordFor(words.part, row.part)} into the grinder`
    : words.weighStage[row.stage];
}
