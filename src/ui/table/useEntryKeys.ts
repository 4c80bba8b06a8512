import { computed } from 'vue';
import type { AnimalPage, CutPart } from '../../bridge/contract.ts';
import { answerTo } from '../parts/index.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { partStyle } from '../ladder/ladder.ts';
import { primalKeys } from './primal-keys.ts';
import type { Weigh } from './useWeigh.ts';

/** Selects a part or a primal by letter or arrow. */
interface Kind {
  value: string;
  label: string;
  key: string;
  tone?: string;
}

function parts(): Kind[] {
  return (Object.keys(words.part) as CutPart[]).map((value) => ({
    value,
    label: words.part[value],
    key: partStyle[value].letter,
    tone: partStyle[value].tone,
  }));
}

/**
 * Keys at the number entry: answers to a doubt, the scale, letters while it is empty, arrows at any time. `ready` is
 * called for R at an empty entry if everything is packed.
 */
export function useEntryKeys(
  page: () => AnimalPage,
  weigh: Weigh,
  canBeReady: () => boolean,
  ready: () => unknown,
) {
  const { entry } = weigh;
  const kinds = computed<readonly Kind[]>(() => {
    if (weigh.correcting.value) return [];
    if (entry.stage === 'cut') return parts();
    if (entry.stage !== 'primal') return [];
    const came = page().primals.filter(({ brought }) => brought > 0);
    const keys = primalKeys(came);
    return came.map(({ code, name }) => ({ value: code, label: name, key: keys[code] ?? '' }));
  });
  const picked = computed({
    get: () => (entry.stage === 'primal' ? entry.primal : entry.part),
    set: (value: string) => {
      if (entry.stage === 'primal') entry.primal = value;
      else entry.part = value as CutPart;
    },
  });

  function byKey(event: KeyboardEvent): Kind | undefined {
    const at = kinds.value.findIndex(({ value }) => value === picked.value);
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    const count = kinds.value.length;
    if (step) return kinds.value[(at + step + count) % count];
    return entry.typed === ''
      ? kinds.value.find(({ key }) => key !== '' && key === event.key.toUpperCase())
      : undefined;
  }

  function onKey(event: KeyboardEvent): void {
    const answer = answerTo(event, weigh.answers.value);
    if (answer) {
      event.preventDefault();
      answer.does();
      return;
    }
    if (weigh.scale.onKey(event)) return;
    if (event.key === 'Escape' && weigh.correcting.value) {
      event.preventDefault();
      weigh.stopCorrecting();
    }
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key.toUpperCase() === 'R' && entry.typed === '' && canBeReady()) {
      event.preventDefault();
      ready();
      return;
    }
    const next = byKey(event);
    if (!next) return;
    event.preventDefault();
    picked.value = next.value;
  }

  /** Digits select options while the group of kinds has the focus; in the entry they are a weight. */
  function onGroupKey(event: KeyboardEvent): void {
    const next = /^[1-9]$/.test(event.key) ? kinds.value[Number(event.key) - 1] : undefined;
    if (!next || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    picked.value = next.value;
  }

  return { kinds, picked, onKey, onGroupKey };
}
