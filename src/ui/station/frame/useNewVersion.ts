import { useEventListener, useIdle } from '@vueuse/core';
import { computed, onMounted, ref, shallowRef, watch } from 'vue';
import { useLine } from '../line.ts';

/** Path of the service worker (electron/packaging/station-build.ts). */
const WORKER = '/station-worker.js';
/** Time without a press before a new version is loaded, ms. */
const STILL = 5_000;
/** Some browsers do not say that the new worker took over; after so long it has, ms. */
const TAKES_OVER = 5_000;

/**
 * Keeps the page on the device, and loads a new version of it between entries, never within one.
 * @returns `isUntrusted`: the browser refuses the worker, because it does not trust the shop's certificate; `isReady`: a new
 * version waits
 */
export function useNewVersion() {
  const line = useLine();
  const registration = shallowRef<ServiceWorkerRegistration | null>(null);
  const isUntrusted = ref(false);
  const waiting = shallowRef<ServiceWorker | null>(null);
  const { idle } = useIdle(STILL);
  let asked = false;

  onMounted(async () => {
    if (!('serviceWorker' in navigator)) {
      isUntrusted.value = true;
      return;
    }
    try {
      registration.value = await navigator.serviceWorker.register(WORKER, { updateViaCache: 'none' });
    } catch {
      // Offline it is registered already; otherwise a warning about the certificate was clicked away.
      isUntrusted.value = !(await navigator.serviceWorker.getRegistration());
      return;
    }
    look();
  });

  function look(): void {
    const found = registration.value;
    if (!found) return;
    const note = () => (waiting.value = navigator.serviceWorker.controller ? found.waiting : null);
    note();
    found.onupdatefound = () => {
      const next = found.installing;
      if (next) next.onstatechange = note;
    };
  }

  /** An installed page seldom starts anew: it asks for a new version whenever it sees the desk again. */
  function ask(): void {
    // It fails while the desk is away, and is asked again when it is back.
    registration.value?.update().catch(() => undefined);
  }
  watch(
    () => line.connection.state,
    (state) => state === 'connected' && ask(),
  );
  useEventListener(document, 'visibilitychange', () => !document.hidden && ask());

  /** What is half typed in a field that no screen speaks of. */
  const isTyping = () =>
    [
      ...document.querySelectorAll<HTMLInputElement>('input:not([type=radio], [type=checkbox]), textarea'),
    ].some(({ value, defaultValue }) => value !== defaultValue);

  watch([waiting, idle, () => line.open.size], () => {
    if (asked || !waiting.value || !idle.value || line.open.size > 0 || isTyping()) return;
    asked = true;
    const reload = () => location.reload();
    navigator.serviceWorker.oncontrollerchange = reload;
    setTimeout(reload, TAKES_OVER);
    waiting.value.postMessage('take-over');
  });

  return { isUntrusted, isReady: computed(() => waiting.value !== null) };
}
