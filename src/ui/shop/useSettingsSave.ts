import { computed } from 'vue';
import type { CallInput, ShopSettings } from '../../bridge/contract.ts';
import { toast } from '../parts/index.ts';
import { useCall } from '../calls/useCall.ts';
import { useFieldProblems } from '../calls/useFieldProblems.ts';
import { useShop } from '../stores/shop.ts';
import { useTyped } from './useTyped.ts';

type Changes = CallInput<'shop.saveSettings'>['changes'];

/**
 * The form of a group of settings, and how it is saved.
 * @param typeOf the settings as they are typed
 * @param fields those at which a problem can stand
 * @param said after saving
 */
export function useSettingsSave<T extends object>(
  settings: ShopSettings,
  typeOf: (settings: ShopSettings) => T,
  fields: readonly (keyof ShopSettings)[],
  said: string,
) {
  const shop = useShop();
  const call = useCall('shop.saveSettings');
  const { problemAt, otherProblem } = useFieldProblems(call.problem, fields);
  const { form, changed, reset } = useTyped(settings, typeOf);

  /** Saves these settings; a problem stands at its field. */
  async function save(changes: Changes): Promise<void> {
    const answer = await call.run({ changes });
    if (!answer.ok) return;
    shop.take(answer.value);
    reset(answer.value.settings);
    toast(said);
  }
  return { form, changed, problemAt, otherProblem, busy: computed(() => call.busy.value), save };
}
