import { useEventListener, useIntervalFn } from '@vueuse/core';
import { onScopeDispose, ref, watch, type Ref } from 'vue';
import { codeReader, type CodeReader } from './read-codes.ts';

/** A code is looked for this often, ms: five times a second, so that a slow tablet keeps up. */
const LOOK_EVERY = 200;
/** Wide enough for the bars of a ticket across half of the picture, px. */
const WIDTH = 1280;

/**
 * Shows the camera in a video and tells what code it sees. It is opened anew whenever the page comes back into sight: some
 * tablets end it in the background.
 * @returns `problem`: why there is no picture; null while there is one, or none was asked for yet
 */
export function useCamera(video: Readonly<Ref<HTMLVideoElement | null>>, seen: (text: string) => void) {
  const problem = ref<'refused' | 'none' | null>(null);
  const frame = document.createElement('canvas');
  let stream: MediaStream | null = null;
  let reader: CodeReader | null = null;
  let isReading = false;

  async function open(): Promise<void> {
    close();
    try {
      stream = await navigator.mediaDevices.getUserMedia({
        video: { facingMode: 'environment', width: { ideal: WIDTH } },
      });
    } catch (error) {
      if (!(error instanceof DOMException)) throw error;
      problem.value = error.name === 'NotAllowedError' ? 'refused' : 'none';
      return;
    }
    problem.value = null;
    reader ??= await codeReader();
    if (!video.value) return close();
    video.value.srcObject = stream;
    await video.value.play();
  }

  function close(): void {
    for (const track of stream?.getTracks() ?? []) track.stop();
    stream = null;
  }

  async function look(): Promise<void> {
    const shown = video.value;
    if (!reader || !shown || shown.videoWidth === 0 || isReading) return;
    isReading = true;
    try {
      frame.width = shown.videoWidth;
      frame.height = shown.videoHeight;
      const drawn = frame.getContext('2d', { willReadFrequently: true });
      if (!drawn) return;
      drawn.drawImage(shown, 0, 0);
      const text = await reader(drawn.getImageData(0, 0, frame.width, frame.height));
      if (text !== null && stream) seen(text);
    } finally {
      isReading = false;
    }
  }

  useIntervalFn(() => void look(), LOOK_EVERY);
  watch(video, (now) => now && void open(), { immediate: true, flush: 'post' });
  useEventListener(document, 'visibilitychange', () => (document.hidden ? close() : void open()));
  onScopeDispose(close);
  return { problem };
}
