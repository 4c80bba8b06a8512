import { defineStore } from 'pinia';
import { computed, customRef, ref, shallowRef, watch } from 'vue';
import type { Caution, Problem, ShopView, SpeciesCard } from '../../bridge/contract.ts';
import { knownZone } from '../../core/values/zone.ts';
import type { Language } from '../../words/languages.ts';
import { currentLanguage } from '../../words/speech.ts';
import { call, onStale } from '../link/bridge.ts';
import { useOpening } from '../link/opening.ts';
import { makeFormat, type Format } from '../texts/format.ts';

/** Storage key of the current initials, separate for each book. */
const initialsKey = ({ bookPath }: ShopView): string => `gambrel.initials ${bookPath}`;
/** Until the shop is loaded, times are formatted in this computer's locale. */
const NO_SHOP = {
  unit: 'lb',
  step: 0.02,
  locale: 'en-US',
  currency: 'USD',
  zone: knownZone(Intl.DateTimeFormat().resolvedOptions().timeZone),
} as const;

/** The shop for the whole window: settings, date, initials, formats. */
export const useShop = defineStore('shop', () => {
  const opening = useOpening();
  const view = shallowRef<ShopView | null>(null);
  const problem = shallowRef<Problem | null>(null);
  const by = ref('');
  let loading = Promise.resolve();
  let requested = 0;

  const settings = computed(() => view.value?.settings ?? null);
  /** How the shop writes, by language; made when one is first asked for. */
  const formats = computed(() => {
    const written = settings.value ?? NO_SHOP;
    const made = new Map<Language, Format>();
    return (language: Language): Format => {
      const format = made.get(language) ?? makeFormat({ ...written, language });
      made.set(language, format);
      return format;
    };
  });
  /** Not computed once for all: a part may speak another language than the window (`SpokenPart`). */
  const format = customRef<Format>(() => ({ get: () => formats.value(currentLanguage()), set: () => {} }));
  const unit = computed(() => settings.value?.unit ?? NO_SHOP.unit);
  const step = computed(() => settings.value?.step ?? NO_SHOP.step);
  const locale = computed(() => settings.value?.locale ?? NO_SHOP.locale);
  const zone = computed(() => knownZone(settings.value?.zone, NO_SHOP.zone));
  /** The desk's local date: the demo season has its own calendar. */
  const today = computed(() => view.value?.today ?? '');

  /** Resolves once the latest request is answered. */
  function load(): Promise<void> {
    return (loading = ask());
  }

  async function ask(): Promise<void> {
    const request = ++requested;
    const answer = await call('shop.get', {});
    // A late answer may be of the previous book.
    if (request !== requested) return loading;
    if (answer.ok) return take(answer.value);
    problem.value = answer.problem;
    // Without its book the desk has no data; what is on screen may be outdated.
    if (!answer.problem.code.startsWith('book.')) return;
    view.value = null;
    opening.shown = null;
  }

  /** Applies a fresh view, e.g. the answer of a call that changed the shop. */
  function take(fresh: ShopView): void {
    view.value = fresh;
    const isOther = opening.shown !== fresh.opening;
    opening.shown = fresh.opening;
    if (isOther) by.value = localStorage.getItem(initialsKey(fresh)) ?? '';
    problem.value = null;
    if (by.value && !fresh.staff.some((one) => one.initials === by.value)) by.value = '';
  }

  /** Loads the shop now and after every change of the book. */
  async function start(): Promise<void> {
    await load();
    onStale(
      ['shop.get'],
      () => undefined,
      () => void load(),
    );
  }

  /** Every species that an animal may have, archived ones included; `view.species` are the offered ones. */
  const allSpecies = computed(() => [...(view.value?.species ?? []), ...(view.value?.speciesAway ?? [])]);
  const species = (code: string): SpeciesCard | undefined =>
    allSpecies.value.find((one) => one.code === code);
  const cautions = (codes: string[]): Caution[] =>
    view.value?.cautions.filter((one) => codes.includes(one.code)) ?? [];

  watch(by, (initials) => {
    // Initials in the demo are not stored.
    if (view.value && !view.value.demo) localStorage.setItem(initialsKey(view.value), initials);
  });

  return {
    view,
    problem,
    by,
    settings,
    format,
    unit,
    step,
    locale,
    zone,
    today,
    load,
    take,
    start,
    allSpecies,
    species,
    cautions,
  };
});
