import { useEventListener } from '@vueuse/core';
import { watch } from 'vue';
import { useLine } from '../line.ts';

/** Frequency of a tone, Hz, its start and length, s. */
type Tone = readonly [hertz: number, from: number, length: number];

/** High and short: it stands on this device. Low and twice: the desk asks or refuses. */
const KEPT: readonly Tone[] = [[880, 0, 0.09]];
const ASKS: readonly Tone[] = [[240, 0, 0.18], [240, 0.26, 0.18]]; // prettier-ignore
const LOUDNESS = 0.2;

/** Sounds when an entry was kept and when one needs an answer: hands and eyes are on the meat. */
export function useFeedback(): void {
  const line = useLine();
  let audio: AudioContext | null = null;
  // A browser lets a page sound only after it was pressed.
  useEventListener(window, ['pointerdown', 'keydown'], () => (audio ??= new AudioContext()));

  function sound(tones: readonly Tone[]): void {
    if (!audio) return;
    void audio.resume();
    for (const [hertz, from, length] of tones) {
      const tone = audio.createOscillator();
      const loudness = audio.createGain();
      tone.frequency.value = hertz;
      loudness.gain.value = LOUDNESS;
      tone.connect(loudness).connect(audio.destination);
      tone.start(audio.currentTime + from);
      tone.stop(audio.currentTime + from + length);
    }
  }

  watch(
    () => [line.entries.length, line.unanswered.length] as const,
    ([all, asked], [before, askedBefore]) => {
      if (asked > askedBefore) {
        sound(ASKS);
        navigator.vibrate?.([180, 80, 180]);
      } else if (all > before) sound(KEPT);
    },
  );
}
