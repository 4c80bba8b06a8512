import { useWakeLock } from '@vueuse/core';
import { onMounted } from 'vue';

/** Keeps the screen on where the browser can: hands are wet, and a weight is read from across the table. */
export function useKeepAwake(): void {
  const { isSupported, request } = useWakeLock();
  onMounted(async () => {
    if (!isSupported.value) return;
    try {
      await request('screen');
    } catch (error) {
      // A device that saves its battery refuses; the screen then goes off as usual.
      if (!(error instanceof DOMException && error.name === 'NotAllowedError')) throw error;
    }
  });
}
