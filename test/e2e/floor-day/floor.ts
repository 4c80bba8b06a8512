/** A shop's floor: a desk, and devices that reach it over TLS through programs that break their lines. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { seededRandom } from '../../../src/core/stats/random.ts';
import type { Place } from '../../../src/trade/place.ts';
import { startFaultProxy, type Faults, type FaultProxy } from '../../torture/line/fault-proxy.ts';
import { signerBeside } from '../../torture/line/running-desk.ts';
import { launch } from '../browser.ts';
import { openStationShop, pairStation, trust, type StationShop } from '../station/station-shop.ts';

const TABLET = { width: 810, height: 1080 };
const NO_FAULTS: Faults = { cut: 0, truncate: 0, swallow: 0, hold: 0, holdMs: 0 };
/** Nothing is swallowed: a station would wait its 10 s for each, and the torture tries that. */
const BAD_LINE: Faults = { cut: 0.03, truncate: 0.01, swallow: 0, hold: 0.06, holdMs: 30 };

/** One wireless of the shop, and the devices on it. */
export interface Air {
  proxy: FaultProxy;
  /** From now on the line breaks, or does no more. */
  isBad(bad: boolean): void;
  /** Another device, with a clock that a test may move on. */
  device(): Promise<Page>;
}

export interface Floor {
  shop: StationShop;
  near: Air;
  far: Air;
  /** One after the other: the shop's owner allows one device at a time. */
  inTurn<T>(work: () => Promise<T>): Promise<T>;
  end(): Promise<void>;
}

export async function openFloor(): Promise<Floor> {
  const shop = await openStationShop();
  const ends: (() => unknown)[] = [];
  const air = async (seed: number): Promise<Air> => {
    const { hostname, port, host } = new URL(shop.origin);
    const faults = { ...NO_FAULTS };
    const target = { host: hostname, port: Number(port) };
    const proxy = await startFaultProxy(target, faults, seededRandom(seed));
    // The page's origin stays the desk's own address, to which its certificate belongs.
    const through = `--host-resolver-rules=MAP ${host} ${hostname}:${proxy.port}`;
    const browser: Browser = await launch([...trust(signerBeside(shop.bookPath)), through]);
    ends.push(() => browser.close(), () => proxy.close()); // prettier-ignore
    return {
      proxy,
      isBad: (bad) => void Object.assign(faults, bad ? BAD_LINE : NO_FAULTS),
      device: () => deviceOf(browser),
    };
  };
  const [near, far] = await Promise.all([air(7), air(8)]);
  let turn: Promise<unknown> = Promise.resolve();
  return {
    shop,
    near,
    far,
    inTurn(work) {
      const done = turn.then(work);
      turn = done;
      return done;
    },
    async end() {
      for (const one of ends) await one();
      await shop.end();
    },
  };
}

async function deviceOf(browser: Browser): Promise<Page> {
  const context: BrowserContext = await browser.newContext({
    viewport: TABLET,
    hasTouch: true,
    locale: 'en-US',
    reducedMotion: 'reduce',
  });
  await context.clock.install();
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  return page;
}

export interface FloorStation {
  id: number;
  name: string;
  page: Page;
}

/** Pairs a device and says who works there; nobody of the staff is at a hunter's own check-in. */
export async function stationAt(
  floor: Floor,
  air: Air,
  name: string,
  place: Place,
  who: string | null,
): Promise<FloorStation> {
  const page = await air.device();
  await page.goto(`${floor.shop.origin}/`);
  const id = await floor.inTurn(() => pairStation(floor.shop, page, name, place));
  if (who !== null) await page.getByRole('dialog').getByRole('button', { name: who, exact: true }).tap();
  // From here on the page comes from the device, whatever becomes of the line.
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  return { id, name, page };
}

/** Ten minutes of the station's own clock. */
export const tenMinutesLater = ({ page }: FloorStation): Promise<void> => page.clock.fastForward('10:00');
