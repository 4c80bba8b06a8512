import { computed, shallowRef, toRef, watch, type Ref } from 'vue';
import type { AnimalPage, CutPart, Problem, WeighingRow } from '../../../../bridge/contract.ts';
import { useScaleEntry } from '../../../scale/useScaleEntry.ts';
import { useDrafts } from '../../../stores/drafts.ts';
import { useShop } from '../../../stores/shop.ts';
import { isUnknown, nonePartAt, saysNone } from '../../../table/part-none.ts';
import { usePrimalTurn } from '../../../table/usePrimalTurn.ts';
import { problemMessage } from '../../../texts/problem-message.ts';
import { typedWithUnit } from '../../../texts/typed.ts';
import {
  entryName,
  firstStage,
  freshEntry,
  nextProduct,
  packagesIn,
  type EntryStage,
} from '../../../weighing/entry.ts';
import { useCorrecting } from '../../../weighing/useCorrecting.ts';
import { weighingName } from '../../../weighing/weighing-name.ts';
import { text } from '../../../../words/compiled/window/table.ts';
import { text as weighingText } from '../../../../words/compiled/window/weighings.ts';
import { text as placeText } from '../../../../words/compiled/window/station/places.ts';
import { useLine } from '../../line.ts';
import { useOpenEntry } from '../../useOpenEntry.ts';
import { waitingOf } from '../entries.ts';
import { unreadable, weighInput } from './weigh-input.ts';
import { withWaiting } from './with-waiting.ts';

/**
 * The entry of weights of one animal: the next one, which goes to the station's outbox and leaves the entry free for the one after it.
 * What the desk doubts comes back as a question of its own.
 */
export type WeighEntry = ReturnType<typeof useWeighEntry>;

/** @param stages what is weighed at this place, in the usual order; at least one */
export function useWeighEntry(page: Ref<AnimalPage>, stages: readonly EntryStage[]) {
  const line = useLine();
  const shop = useShop();
  const drafts = useDrafts();
  const problem = shallowRef<Problem | null>(null);
  const waiting = computed(() =>
    waitingOf(line.entries, 'table.weigh').filter(({ input }) => input.animalId === page.value.id),
  );
  /** The animal with the weights that are on their way. */
  const coming = computed(() => withWaiting(page.value, waiting.value, shop.unit));

  const name = `station ${page.value.id}`;
  /** The next weight in the usual order, of those that are weighed here. */
  const stageHere = (wanted: EntryStage): EntryStage =>
    stages.includes(wanted) ? wanted : (stages.at(-1) ?? wanted);
  const entry = drafts.of(name, () => {
    const fresh = freshEntry(coming.value);
    return { ...fresh, stage: stageHere(fresh.stage) };
  });
  useOpenEntry(() => entry.typed !== '');
  const scale = useScaleEntry(toRef(entry, 'typed'));
  const rest = (): void => drafts.rest(name);
  const { correcting, meanwhile } = useCorrecting(page, entry);
  const what = computed(() =>
    correcting.value
      ? weighingName(correcting.value, page.value.primals)
      : entryName(entry, page.value.primals),
  );
  const count = computed({
    get: () => {
      if (entry.count !== '') return entry.count;
      const card = shop.view?.products.find((one) => one.name === entry.product);
      return packagesIn(entry.typed, card?.packageGrams ?? page.value.instructions.packageGrams, shop.unit);
    },
    set: (typed) => (entry.count = typed),
  });
  /** The part that can be stated as none: the selected one, if nothing is known of it. */
  const noneOf = computed(() => {
    const part = correcting.value ? null : nonePartAt(entry);
    return part && isUnknown(coming.value, part) ? part : null;
  });

  /** What is wrong before anything is sent, or null. */
  function check(): Problem | null {
    const unread =
      unreadable(entry.typed, shop.unit) ?? (entry.tare ? unreadable(entry.tare, shop.unit) : null);
    if (unread || correcting.value || entry.stage !== 'packed') return unread;
    if (entry.product.trim() === '') return { kind: 'invalid', code: 'text.needed', field: 'product' };
    return /^[1-9]\d{0,3}$/.test(count.value.trim())
      ? null
      : { kind: 'invalid', code: 'count.range', field: 'count' };
  }

  /** @returns whether it went into the outbox */
  async function save(): Promise<boolean> {
    if (noneOf.value && saysNone(entry.typed)) return saveNone();
    problem.value = check();
    if (problem.value) return false;
    await (correcting.value ? sendAgain(correcting.value) : send());
    return true;
  }

  const said = (): string => typedWithUnit(entry.typed, shop.unit);
  const shown = (weight: string): string => placeText.shown({ ticket: page.value.ticket, what: weight });

  async function send(): Promise<void> {
    const { stage, place } = entry;
    const input = weighInput(entry, page.value.id, count.value, scale.source.value);
    await line.save('table.weigh', input, shown(`${what.value} ${said()}`));
    if (stage === 'packed' && place.trim()) drafts.lastPlace = place.trim();
    goOn();
    empty();
  }

  async function sendAgain(row: WeighingRow): Promise<void> {
    await line.save(
      'table.correct',
      {
        weighingId: row.id,
        typed: entry.typed,
        reason: weighingText.reasons.again,
        ...(entry.tare === (row.tareTyped ?? '') ? {} : { tareTyped: entry.tare }),
      },
      shown(`${what.value} ${said()}`),
    );
    stopCorrecting();
  }

  async function saveNone(): Promise<boolean> {
    const part = noneOf.value;
    if (!part) return false;
    await line.save('table.stateNone', { animalId: page.value.id, part }, shown(text.noneOf({ part })));
    empty();
    return true;
  }

  /** Voids a saved weight. @param why as it is kept in the book */
  async function voidWeight(row: WeighingRow, why: string): Promise<void> {
    const weight = `${weighingName(row, page.value.primals)} ${typedWithUnit(row.typed, row.unit)}`;
    await line.save(
      'table.void',
      { weighingId: row.id, reason: why },
      shown(weighingText.tookBack({ weight })),
    );
  }

  /** Selects what to weigh next; for primals the desk's answer decides. */
  function goOn(): void {
    if (entry.stage === 'received' || entry.stage === 'hanging')
      entry.stage = stageHere(firstStage(coming.value, entry.stage));
    else if (entry.stage === 'packed') {
      entry.product = nextProduct(coming.value, entry.product);
      entry.count = '';
    }
  }
  usePrimalTurn(page, entry, rest);

  function empty(): void {
    entry.typed = '';
    problem.value = null;
    rest();
  }
  function startCorrecting(row: WeighingRow): void {
    entry.correcting = row.id;
    entry.typed = '';
    entry.tare = row.tareTyped ?? '';
  }
  function stopCorrecting(): void {
    entry.correcting = null;
    entry.tare = '';
    empty();
  }
  function pickPart(part: CutPart): void {
    entry.part = part;
  }

  // A refusal concerns the text as it was.
  watch(
    () => [entry.typed, entry.stage, entry.part, entry.primal, entry.tare],
    () => (problem.value = null),
  );

  return {
    entry,
    coming,
    correcting,
    meanwhile,
    count,
    what,
    scale,
    noneOf,
    wrong: computed(() => (problem.value ? problemMessage(problem.value, shop.format) : '')),
    save,
    saveNone,
    voidWeight,
    startCorrecting,
    stopCorrecting,
    pickPart,
  };
}
