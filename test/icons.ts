/** Draws the icons of the installers from `resources/icons/gambrel.svg` again (`npm run icons`), in Chromium. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ICNS_EDGES, ICO_EDGES, icnsOf, icoOf, type Picture } from '../electron/packaging/icon-files.ts';
import { openBrowser } from './e2e/browser.ts';

const FOLDER = join(import.meta.dirname, '../resources/icons');
/** What desktops on Linux look for. */
const LINUX_EDGES = [16, 24, 32, 48, 64, 128, 256, 512];

const svg = readFileSync(join(FOLDER, 'gambrel.svg'), 'utf8');
const edges = [...new Set([...ICO_EDGES, ...ICNS_EDGES, ...LINUX_EDGES])].toSorted((a, b) => a - b);
const browser = await openBrowser();
const pictures: Picture[] = [];
for (const edge of edges) {
  const page = await browser.newPage({ viewport: { width: edge, height: edge } });
  const address = `data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}`;
  await page.setContent(
    `<style>body{margin:0}img{display:block;width:${edge}px;height:${edge}px}</style><img src="${address}">`,
  );
  pictures.push({ edge, png: await page.screenshot({ omitBackground: true }) });
  await page.close();
}
await browser.close();

const of = (wanted: readonly number[]) => pictures.filter(({ edge }) => wanted.includes(edge));
mkdirSync(join(FOLDER, 'png'), { recursive: true });
for (const { edge, png } of of(LINUX_EDGES)) writeFileSync(join(FOLDER, 'png', `${edge}x${edge}.png`), png);
writeFileSync(join(FOLDER, 'icon.ico'), icoOf(of(ICO_EDGES)));
writeFileSync(join(FOLDER, 'icon.icns'), icnsOf(of(ICNS_EDGES)));
console.log(`Drawn in ${edges.join(', ')} pixels.`);
