/** Presses one key in a page and waits for its answer: how long that took, and what the browser and the desk did meanwhile. */
import type { CDPSession, Page } from 'playwright-core';
import type { Recorded } from './on-page.ts';

/** Something that a hand does and waits for. */
export interface Act {
  name: string;
  /** As Playwright names it. */
  key: string;
  /** Prepares a round; not measured. @returns what `answered` is about */
  before: (round: number) => Promise<string>;
  /** Sent right before the key, as a barcode reader does. */
  typed?: (round: number) => string;
  /** Whether the page shows the answer. Runs in the page, so it uses nothing outside itself. */
  answered: (about: string) => boolean;
  /** The longest that the median of all rounds may take, in milliseconds. */
  barMs: number;
  rounds?: number;
}

export interface Wait extends Recorded {
  /** From the key to the frame after the one that painted the answer. */
  answerMs: number;
  /** Processor time of the page's main thread until it rests again, slowed as it is, in milliseconds. */
  threadMs: number;
  /** Calls of the desk until the page rests, each with the time from its request to the first byte of its answer in milliseconds. */
  calls: { name: string; ms: number }[];
}

export interface Hand {
  page: Page;
  goTo(hash: string): Promise<void>;
  /** Waits until no call is under way, none follows, and the main thread is idle. */
  rest(): Promise<void>;
  /** One round of an act. @throws Error when the answer stood there before the key */
  wait(act: Act, round: number): Promise<Wait>;
}

/** Without a call for so long, none follows. */
const REST_MS = 300;

/** @param slowedBy how many times slower the processor of the page is while a hand waits */
export async function handOn(page: Page, slowedBy: number): Promise<Hand> {
  const client = await page.context().newCDPSession(page);
  await client.send('Performance.enable', { timeDomain: 'threadTicks' });
  const underWay = new Set<unknown>();
  let calls: Wait['calls'] = [];
  page.on('request', (request) => isCall(request.url()) && underWay.add(request));
  page.on('requestfailed', (request) => underWay.delete(request));
  page.on('requestfinished', (request) => {
    if (!underWay.delete(request)) return;
    const { requestStart, responseStart } = request.timing();
    calls.push({ name: request.url().replace(/.*\/call\//, ''), ms: responseStart - requestStart });
  });

  async function rest(): Promise<void> {
    let before = -1;
    while (underWay.size > 0 || calls.length !== before) {
      before = calls.length;
      await page.waitForTimeout(REST_MS);
      await page.evaluate(() => new Promise((idle) => requestIdleCallback(idle)));
    }
  }

  return {
    page,
    rest,
    async goTo(hash) {
      await page.evaluate((to) => (location.hash = to), hash);
      await rest();
    },
    async wait({ key, before, typed, answered, name }, round) {
      const about = await before(round);
      await rest();
      const test = await page.evaluateHandle<typeof answered>(`(${answered.toString()})`);
      if (await page.evaluate(({ test, about }) => test(about), { test, about }))
        throw new Error(`${name}: the answer stands there before the key: ${about}`);
      const worked = await threadMs(client);
      calls = [];
      await client.send('Emulation.setCPUThrottlingRate', { rate: slowedBy });
      const watch = await page.evaluateHandle(
        ({ key, test, about }) => ({ answer: window.handWatch.until(key, test, about) }),
        { key: key.split('+').at(-1) ?? '', test, about },
      );
      if (typed) await page.keyboard.type(typed(round));
      await page.keyboard.press(key);
      const answerMs = await watch.evaluate(({ answer }) => answer);
      await rest();
      await client.send('Emulation.setCPUThrottlingRate', { rate: 1 });
      const recorded = await page.evaluate(() => window.handWatch.recorded());
      const after = await threadMs(client);
      await Promise.all([watch.dispose(), test.dispose()]);
      return { answerMs, ...recorded, threadMs: after - worked, calls: [...calls] };
    },
  };
}

const isCall = (url: string): boolean => url.includes('/call/');

async function threadMs(client: CDPSession): Promise<number> {
  const { metrics } = await client.send('Performance.getMetrics');
  return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? NaN);
}
