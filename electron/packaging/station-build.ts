/**
 * Builds the page of stations beside the window: scripts of its own (`station-…`), so that neither loads what the other needs,
 * and the service worker that keeps the page on the device.
 */
import { createHash } from 'node:crypto';
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, type Plugin, type PluginOption, type Rolldown } from 'vite';

/** Sizes in which systems show the icon of an installed page, px. */
const ICONS = [256, 512] as const;
const MANIFEST = 'station-app.json';

/** @param plugins those of the window, made anew */
export function stationBuild(root: string, plugins: () => PluginOption[]): Plugin {
  const outDir = join(root, 'out/renderer');
  return {
    name: 'station-build',
    // The window of a developer is tried without stations, and builds into another folder.
    apply: (_, { command, mode }) => command === 'build' && mode !== 'development',
    async closeBundle() {
      const files = await buildPage(root, outDir, plugins());
      writeManifest(root, outDir);
      await buildWorker(root, outDir, files);
    },
  };
}

/** @returns the paths of what the page may need */
async function buildPage(root: string, outDir: string, plugins: PluginOption[]): Promise<string[]> {
  const built = await build({
    configFile: false,
    logLevel: 'warn',
    root: join(root, 'src/ui'),
    base: './',
    plugins: [...plugins, headTags],
    build: {
      outDir,
      emptyOutDir: false,
      minify: true,
      assetsInlineLimit: 0,
      chunkSizeWarningLimit: 1_000,
      rolldownOptions: {
        input: { page: join(root, 'src/ui/station.html') },
        output: {
          entryFileNames: 'assets/station-[name]-[hash].js',
          chunkFileNames: 'assets/station-[name]-[hash].js',
        },
      },
    },
  });
  const names = outputOf(built).map(({ fileName }) => fileName);
  // The generated language is for trying layouts; nobody is offered it.
  const kept = names.filter((name) => name !== 'station.html' && !name.includes('station-qps-'));
  return ['/', `/${MANIFEST}`, ...kept.map((name) => `/${name}`)];
}

/** The worker is another one, and takes over anew, whenever a file of the page is another one. */
async function buildWorker(root: string, outDir: string, files: string[]): Promise<void> {
  const page = readFileSync(join(outDir, 'station.html'));
  const version = createHash('sha256').update(JSON.stringify(files)).update(page).digest('hex').slice(0, 16);
  await build({
    configFile: false,
    logLevel: 'warn',
    root: join(root, 'src/ui'),
    define: { STATION_FILES: JSON.stringify(files), STATION_VERSION: JSON.stringify(version) },
    build: {
      outDir,
      emptyOutDir: false,
      minify: true,
      copyPublicDir: false,
      rolldownOptions: {
        input: { worker: join(root, 'src/ui/station/worker/worker.ts') },
        output: { entryFileNames: 'station-worker.js' },
      },
    },
  });
}

/** What makes the page installable (W3C Web Application Manifest). */
function writeManifest(root: string, outDir: string): void {
  for (const size of ICONS)
    copyFileSync(join(root, `resources/icons/png/${size}x${size}.png`), join(outDir, iconOf(size)));
  const manifest = {
    name: 'Gambrel station',
    short_name: 'Gambrel',
    start_url: '/',
    scope: '/',
    display: 'standalone',
    background_color: '#133a33',
    theme_color: '#133a33',
    icons: ICONS.map((size) => ({ src: `/${iconOf(size)}`, sizes: `${size}x${size}`, type: 'image/png' })),
  };
  writeFileSync(join(outDir, MANIFEST), JSON.stringify(manifest));
}

const iconOf = (size: number): string => `station-${size}.png`;

const headTags: Plugin = {
  name: 'station-head',
  transformIndexHtml: () => [
    { tag: 'link', attrs: { rel: 'manifest', href: `/${MANIFEST}` }, injectTo: 'head' },
    { tag: 'link', attrs: { rel: 'apple-touch-icon', href: `/${iconOf(256)}` }, injectTo: 'head' },
  ],
};

function outputOf(built: Awaited<ReturnType<typeof build>>): Rolldown.RolldownOutput['output'][number][] {
  if (!Array.isArray(built) && 'output' in built) return built.output;
  throw new Error('The page of stations was not built.');
}
