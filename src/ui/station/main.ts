/** Starts the page of a station: what the device knows of itself first, then its screens. */
import { createPinia } from 'pinia';
import { createApp } from 'vue';
import '../look/index.ts';
import './look/station.css';
import { isLanguage } from '../../words/languages.ts';
import { offered } from '../../words/compiled/languages.ts';
import { useLanguage } from '../stores/language.ts';
import { useTheme } from '../stores/theme.ts';
import { PHOTO_SOURCE } from '../photos/source.ts';
import { readPairing } from './kept/pairing.ts';
import { photoAtStation } from './photo-source.ts';
import { startStation } from './program.ts';
import StationApp from './StationApp.vue';

const app = createApp(StationApp).use(createPinia()).provide(PHOTO_SOURCE, photoAtStation);
await app.runWithContext(start);
app.mount('#station');

async function start(): Promise<void> {
  useTheme();
  const known = await readPairing();
  if (known) await startStation(known);
  else await useLanguage().choose(preferred());
}

/** Until the shop has chosen, the language that the browser prefers. */
function preferred(): (typeof offered)[number] {
  const wanted = navigator.languages.flatMap((tag) => [tag, tag.split('-')[0] ?? tag]);
  const found = wanted.flatMap((tag) => offered.filter((code) => code.startsWith(tag)));
  return found.find(isLanguage) ?? 'en-US';
}
