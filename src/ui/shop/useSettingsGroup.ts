import { computed, ref } from 'vue';
import type { ShopSettings } from '../../bridge/contract.ts';
import { useShop } from '../stores/shop.ts';
import { text } from '../../words/compiled/window/shop.ts';
import { changesOf, typeSettings, type WrongSettings } from './settings-form.ts';
import { useSettingsSave } from './useSettingsSave.ts';

/**
 * One group of settings that is saved by itself.
 * @param names the settings of the group
 */
export function useSettingsGroup(settings: ShopSettings, names: readonly (keyof ShopSettings)[]) {
  const shop = useShop();
  const { form, changed, problemAt, otherProblem, busy, save } = useSettingsSave(
    settings,
    typeSettings,
    names,
    text.saved,
  );
  const wrong = ref<WrongSettings>({});
  /** Stored values that cannot be used: saving stores what is used instead. */
  const replaced = computed(() =>
    (shop.view?.settingsReplaced ?? []).filter(({ setting }) => names.includes(setting)),
  );

  async function submit(): Promise<void> {
    const read = changesOf(
      form,
      shop.settings ?? settings,
      replaced.value.map(({ setting }) => setting),
    );
    wrong.value = read.wrong;
    if (Object.keys(read.wrong).length > 0) return;
    await save(read.changes as Parameters<typeof save>[0]);
  }

  return {
    form,
    wrong,
    replaced,
    problemAt,
    otherProblem,
    busy,
    /** Whether there is something to save. */
    ready: computed(() => changed.value || replaced.value.length > 0),
    submit,
  };
}
