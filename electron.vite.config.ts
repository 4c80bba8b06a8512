import { resolve } from 'node:path';
import vue from '@vitejs/plugin-vue';
import { defineConfig } from 'electron-vite';
import { licencePlugins } from './electron/packaging/licences.ts';
import {
  fullProps,
  namelessComponents,
  plainImports,
  shortIds,
} from './electron/packaging/small-components.ts';
import { shortWords } from './electron/packaging/short-words.ts';
import { stationBuild } from './electron/packaging/station-build.ts';
import { dependencies } from './package.json';
import { words } from './src/words/compile/compile.ts';

const here = import.meta.dirname;
const licences = licencePlugins(here, Object.keys(dependencies));
/** What of the window is fetched in one script: every place, but not the package that draws charts, nor what alone reaches it. */
const HOUSE =
  /src\/(ui\/(?!main|closing|look|charts\/engine\/(register|draw|config|draw-flow)\.ts)|words\/(?!compiled\/languages\/))/;

/** Plugins of whatever shows Vue components. */
const screens = () => [
  vue({
    features: { optionsAPI: false, componentIdGenerator: shortIds(resolve(here, 'src/ui')) },
    template: { compilerOptions: { hoistStatic: false, cacheHandlers: false } },
  }),
  namelessComponents,
  plainImports,
  fullProps,
  shortWords(here),
];

/**
 * Three bundles: the programs that run in Node (shell, desk, loopback server), the one preload file, the window;
 * and after the window, apart from it, the page of stations.
 * Only the native and WebAssembly packages stay outside the Node bundle; everything else is a devDependency.
 */
export default defineConfig({
  main: {
    plugins: [words(here), licences.gather],
    build: {
      rolldownOptions: {
        input: {
          main: resolve(here, 'electron/main.ts'),
          desk: resolve(here, 'electron/desk.ts'),
          serve: resolve(here, 'electron/serve.ts'),
          worker: resolve(here, 'src/desk/worker.ts'),
          ledger: resolve(here, 'src/ledger/worker.ts'),
        },
      },
    },
  },
  preload: {
    plugins: [words(here)],
    build: {
      externalizeDeps: false,
      rolldownOptions: {
        input: { preload: resolve(here, 'electron/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: 'src/ui',
    plugins: [words(here), ...screens(), licences.emit, stationBuild(here, screens)],
    resolve: { alias: { '@kurkle/color': resolve(here, 'electron/packaging/no-color.ts') } },
    build: {
      outDir: resolve(here, 'out/renderer'),
      emptyOutDir: true,
      minify: true,
      assetsInlineLimit: 0,
      rolldownOptions: {
        input: { index: resolve(here, 'src/ui/index.html'), closing: resolve(here, 'src/ui/closing.html') },
        output: {
          codeSplitting: {
            // Few scripts compress better than many, but words best among words. The package of charts and the farewell stay apart.
            groups: [
              {
                name: 'farewell',
                test: /src\/words\/(\w+\.ts|compiled\/(languages\.ts|window\/closing))/,
                priority: 3,
              },
              { name: 'words', test: /src\/words\/compiled\/(window|problems|shared)/, priority: 2.5 },
              { name: 'house', test: HOUSE, priority: 2 },
            ],
          },
        },
      },
    },
  },
});
