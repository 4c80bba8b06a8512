/** Starts the window: the connection to the desk first, then the shop, then the screens. */
import { createPinia } from 'pinia';
import { createApp } from 'vue';
import './look/index.ts';
import App from './App.vue';
import { openBridge } from './link/bridge.ts';
import { animalPage, makeRouter } from './router.ts';
import { useLanguage } from './stores/language.ts';
import { useShop } from './stores/shop.ts';
import { useTheme } from './stores/theme.ts';

await openBridge();
const app = createApp(App).use(createPinia());
useTheme();
// The desk names built-in things in the window's language.
await useLanguage().start();
await useShop().start();
app.use(makeRouter()).mount('#window');
// Preloads the animal's page while idle, so that the first ticket opens as fast as the next.
requestIdleCallback(() => void animalPage());
