import { computed } from 'vue';
import type { AnimalPage, Suspect, WeighingRow } from '../../bridge/contract.ts';
import { toast, type Answer } from '../parts/index.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';
import { text } from '../../words/compiled/window/doubts.ts';
import { text as weighingText } from '../../words/compiled/window/weighings.ts';
import { useCall } from '../calls/useCall.ts';
import { typedWithUnit } from '../texts/typed.ts';
import { useConfirmedWeights } from './confirmed-weights.ts';
import { useRestoreVoided } from '../weighing/useRestoreVoided.ts';
import { useRestoreReading } from '../weighing/useRestoreReading.ts';
import { suspectOf, suspectSentence } from '../weighing/suspect.ts';
import { hasLeft } from '../../trade/animal.ts';

/**
 * A saved weight that is inconsistent with the others: asked about until it is corrected or confirmed.
 * @param again the weight is typed again
 */
export function useSuspect(animal: () => AnimalPage, again: (row: WeighingRow) => unknown) {
  /** Weights of an animal that has left are read-only, so the finding is only shown. */
  const closed = computed(() => hasLeft(animal()));
  const shop = useShop();
  const confirmedWeights = useConfirmedWeights();
  const correct = useCall('table.correct');
  const take = useCall('table.void');
  const refused = computed(() => correct.problem.value ?? take.problem.value);

  function answered(weighingId: number): boolean {
    return (
      confirmedWeights.weighings.has(weighingId) ||
      (confirmedWeights.confirmed.has(weighingId) && animal().balance.overGrams === 0)
    );
  }

  const subject = computed(() => suspectOf(animal(), answered));
  const sentence = computed(() =>
    subject.value ? suspectSentence(animal(), subject.value, shop.format) : '',
  );

  const restoreReading = useRestoreReading();
  const restoreVoided = useRestoreVoided();

  async function voidWeight({ weighingId, typed, twice }: Suspect): Promise<void> {
    const { reasons } = weighingText;
    const reason = twice ? reasons.twice : reasons.wrongAnimal;
    const answer = await take.run({ weighingId, reason });
    if (!answer.ok) return;
    toast(
      twice ? text.tookOneBack({ typed }) : text.tookItBack({ typed }),
      () => void restoreVoided(weighingId),
    );
  }

  async function accept(suspect: Suspect, row: WeighingRow, typed: string): Promise<void> {
    const reason = weighingText.reasons.mistyped;
    const answer = await correct.run({ weighingId: suspect.weighingId, typed, reason, confirmed: true });
    if (!answer.ok) return;
    const { weighingId } = answer.value;
    toast(text.changed({ typed }), () => void restoreReading(row, weighingId));
  }

  const answers = computed((): Answer[] => {
    if (!subject.value) return [];
    const { suspect, row } = subject.value;
    const { twice, otherAnimal, likely } = suspect;
    const first: Answer[] =
      twice || otherAnimal
        ? [
            {
              key: 'V',
              label: twice ? text.voidOne : text.voidIt,
              likely: true,
              does: () => voidWeight(suspect),
            },
          ]
        : likely
          ? [
              {
                key: 'M',
                likely: true,
                label: text.makeIt({ typed: typedWithUnit(likely.typed, row.unit) }),
                does: () => accept(suspect, row, likely.typed),
              },
            ]
          : [];
    const typed = typedWithUnit(row.typed, row.unit);
    return [
      ...first,
      { key: 'Y', label: text.yesRight({ typed }), does: () => confirmedWeights.weighings.add(row.id) },
      { key: 'N', label: text.noAgain, does: () => again(row) },
    ];
  });

  return {
    closed,
    subject,
    sentence,
    answers,
    /** Why an answer was refused. */
    refusal: computed(() => (refused.value ? problemMessage(refused.value, shop.format) : '')),
  };
}

export type SuspectWeight = ReturnType<typeof useSuspect>;
