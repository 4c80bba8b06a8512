/** Which cautions were seen today, place by place. This computer keeps it: whoever stands at another one sees them there. */
import { ref, type Ref } from 'vue';
import type { CautionPlace } from '../../bridge/contract.ts';

const KEY = 'gambrel.cautions-seen';

interface Seen {
  /** The shop's day: on another one nothing counts as seen. */
  day: string;
  places: Partial<Record<CautionPlace, readonly string[]>>;
}

const kept: Ref<Seen> = ref(readSeen());

/** What lies in the store may be of anybody's hand: what cannot be read was not seen. */
function readSeen(): Seen {
  const nothing: Seen = { day: '', places: {} };
  const stored = localStorage.getItem(KEY);
  if (stored === null) return nothing;
  try {
    const found = JSON.parse(stored) as Partial<Seen> | null;
    return typeof found?.day === 'string' && found.places
      ? { day: found.day, places: found.places }
      : nothing;
  } catch {
    return nothing;
  }
}

/** Was this caution seen at this place today? A caution that is new there is not, whatever else was seen. */
export function isSeen(day: string, place: CautionPlace, code: string): boolean {
  return kept.value.day === day && (kept.value.places[place] ?? []).includes(code);
}

/** These were seen today, at this place; an empty list shows all of them again. */
export function markSeen(day: string, place: CautionPlace, codes: readonly string[]): void {
  const places = kept.value.day === day ? kept.value.places : {};
  const before = codes.length > 0 ? (places[place] ?? []) : [];
  kept.value = { day, places: { ...places, [place]: [...new Set([...before, ...codes])] } };
  localStorage.setItem(KEY, JSON.stringify(kept.value));
}
