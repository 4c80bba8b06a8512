/** From starting the built program to a screen one can work on, and what desk and window then hold. */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { openBrowser } from '../e2e/browser.ts';
import { serve } from '../e2e/served.ts';
import { MOST_MB, scriptsMb } from '../packaging/window-scripts.ts';
import { judged, middle, type Figure } from './timing.ts';

const ROUNDS = 5;

export async function startWork(seasons: number): Promise<Figure[]> {
  const browser = await openBrowser();
  const times: number[] = [];
  let windowMb = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const started = performance.now();
    const served = await serve('--demo');
    const page = await browser.newPage();
    await page.goto(await served.newAddress());
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    await page
      .getByRole('link', { name: /^\d\d-\d+/ })
      .first()
      .waitFor();
    times.push(performance.now() - started);
    windowMb = await page.evaluate(
      () => (performance as unknown as { memory?: { usedJSHeapSize: number } }).memory?.usedJSHeapSize ?? 0,
    );
    await page.close();
    await served.end('SIGINT');
  }
  await browser.close();
  const child = fileURLToPath(new URL('memory-child.ts', import.meta.url));
  const deskMb = Number(execFileSync(process.execPath, [child, String(seasons)], { encoding: 'utf8' }));
  return [
    judged({
      name: 'start to the rail of the demo, in a browser',
      value: middle(times),
      unit: 'ms',
      bar: { ms: 2000 },
    }),
    judged({ name: 'memory of the desk on the large book', value: deskMb, unit: 'MB', bar: { mb: 250 } }),
    judged({ name: 'memory of the window’s scripts', value: windowMb / 2 ** 20, unit: 'MB' }),
    judged({
      name: 'scripts of the window, compressed',
      value: scriptsMb(),
      unit: 'MB',
      bar: { mb: MOST_MB },
    }),
  ];
}
