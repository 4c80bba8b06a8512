import { computed, ref } from 'vue';
import { toast } from '../parts/index.ts';
import { useCall } from '../calls/useCall.ts';
import { useShop } from '../stores/shop.ts';
import { text } from '../../words/compiled/window/backup.ts';
import { useLive } from '../use/useLive.ts';
import { ageOf, isOld } from './age.ts';

/** The backups of the book, what is wrong with them, and the call that makes one. */
export function useBackupState() {
  const shop = useShop();
  const backUp = useCall('shop.backUp');
  /** An additional folder that is searched. */
  const folder = ref('');
  const { value: view, problem } = useLive('shop.listBackups', () => ({ folder: folder.value }));
  /** The age is relative to the desk's answer: it does not tick. */
  const now = computed(() => new Date(view.value?.at ?? Date.now()));
  const last = computed(() => shop.view?.lastBackup ?? null);
  const isOverdue = computed(() => !last.value || isOld(last.value.at, now.value));
  const summary = computed(() => {
    if (!last.value) return text.none;
    const age = ageOf(last.value.at, now.value);
    return isOverdue.value ? text.old({ age }) : text.last({ age });
  });
  const troubles = computed(() =>
    [
      problem.value,
      backUp.problem.value,
      view.value?.problem,
      ...(view.value?.unreadable ?? []),
      view.value?.secondProblem,
    ]
      .filter((one) => !!one)
      // The same problem may come from making a backup and from reading the folder.
      .filter((one, at, all) => all.findIndex(({ code }) => code === one.code) === at),
  );

  async function make(): Promise<void> {
    const answer = await backUp.run({});
    if (answer.ok && !answer.value.secondProblem)
      toast(answer.value.second ? text.backedUpTwice : text.backedUp);
  }

  return {
    folder,
    view,
    now,
    summary,
    troubles,
    /** Known only with the desk's answer, whose clock counts. The demo is thrown away, so it needs no backup. */
    isBad: computed(
      () =>
        problem.value !== null ||
        troubles.value.length > 0 ||
        !!view.value?.missingPhotos ||
        (!!view.value && isOverdue.value && !shop.view?.demo),
    ),
    busy: backUp.busy,
    make,
  };
}

export type BackupState = ReturnType<typeof useBackupState>;
