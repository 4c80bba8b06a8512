/** Going somewhere: each place, an animal, each view of the Season, and through the five thousand rows of the record book. */
import { places } from '../../../src/ui/frame/places.ts';
import { BENCH_SEASON as season } from '../season-by-hand.ts';
import { finishedAnimal } from '../season-views.ts';
import type { Act } from './hand.ts';
import type { LargeShop } from './large-shop.ts';
import { animalAtTable } from './typing.ts';

const PLACE_MS = 200;
const VIEW_MS = 300;
const SCROLL_MS = 100;

/** What the first screen of a place shows once it has all its answers. */
const PLACE_SHOWS: Readonly<Record<(typeof places)[number], string>> = {
  rail: 'On the rail, in cutting order',
  intake: 'Returning hunters appear as you type',
  table: 'On the table now',
  grinder: 'Trim waiting',
  smokehouse: 'Nothing is in the smokehouse|In since',
  quote: 'How they want it',
  pickup: 'Ready for pickup, waiting',
  season: 'What makes a difference',
  books: 'To do',
  shop: 'Letterhead',
};
/** The same of a view of the Season. */
const VIEW_SHOWS = {
  season: 'What makes a difference',
  'season/pounds': 'Species side by side',
  'season/flow': 'Intake by day',
  'season/money': 'Billed and cost, by service',
  'season/fat': 'What the fat came from',
  'season/check': 'Quote accuracy by species',
  'season/compare': 'The true difference is|No clear difference',
  'season/animals': 'Hanging weight',
  'season/costs': 'By species',
  'season/report': 'Sources and chart notes',
} as const;

/** The page has this address and these words, and the charts in sight are drawn. */
function shows(about: string): boolean {
  const { hash, words } = JSON.parse(about) as { hash: string; words: string };
  const text = document.querySelector('main')?.textContent ?? '';
  if (!location.hash.startsWith(hash) || !new RegExp(words).test(text)) return false;
  return [...document.querySelectorAll<HTMLElement>('main canvas')]
    .filter((canvas) => canvas.getBoundingClientRect().top < innerHeight)
    .every((canvas) => canvas.style.display === 'block');
}

export async function placeActs({ hand, call }: LargeShop): Promise<Act[]> {
  const { ticket } = await animalAtTable(call);
  const other = await animalAtTable(call);
  return [
    ...places.map((place, i): Act => ({
      name: `to ${place}`,
      key: `Alt+${(i + 1) % 10}`,
      barMs: place === 'season' ? VIEW_MS : PLACE_MS,
      async before() {
        await hand.goTo(`#/table/${ticket}`);
        return JSON.stringify({ hash: `#/${place}`, words: PLACE_SHOWS[place] });
      },
      answered: shows,
    })),
    {
      name: 'a scanned ticket opens its animal',
      key: 'Enter',
      typed: () => other.ticket,
      barMs: PLACE_MS,
      async before() {
        await hand.goTo('#/rail');
        return other.ticket;
      },
      answered: (about) =>
        document.querySelector('h1')?.textContent.includes(about) === true &&
        document.querySelector('main .inside input') !== null,
    },
  ];
}

/** Each view opened for the first time after a weight of the season was saved, from the view before it. */
export async function seasonActs({ hand, call }: LargeShop): Promise<Act[]> {
  const { page } = hand;
  const weighOnce = await finishedAnimal({ call });
  const views = Object.entries(VIEW_SHOWS);
  return views.map(([path, words], i): Act => ({
    name: `to ${path}`,
    key: 'Enter',
    barMs: VIEW_MS,
    async before() {
      const [from = ''] = views.at(i - 1) ?? [];
      await hand.goTo(`#/${from === 'season/report' ? 'season/animals' : from}?season=${season}`);
      await weighOnce();
      await hand.rest();
      const link = page.locator(`main nav a[href^="#/${path}?"]`);
      await (path === 'season/report' ? page.getByRole('button', { name: 'Season report' }) : link)
        .first()
        .focus();
      return JSON.stringify({ hash: `#/${path}?`, words });
    },
    answered: shows,
  }));
}

export function recordActs({ hand }: LargeShop): Act[] {
  const { page } = hand;
  const atTop = async (): Promise<string> => {
    // Once every row is rendered, they stay until the page is left.
    await hand.goTo('#/card');
    await hand.goTo(`#/books?season=${season}&tab=records`);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    return '';
  };
  return [
    {
      name: 'a page down in the record book',
      key: 'PageDown',
      barMs: SCROLL_MS,
      async before(round) {
        if (round === 0) await atTop();
        return String(await page.evaluate(() => scrollY));
      },
      answered: (about) =>
        scrollY > Number(about) &&
        [0.5, 0.9].every((share) =>
          document.elementFromPoint(innerWidth / 2, innerHeight * share)?.closest('tr[aria-rowindex]'),
        ),
    },
    {
      name: 'to the last row of the record book',
      key: 'End',
      barMs: SCROLL_MS,
      async before() {
        await page.evaluate(() => scrollTo(0, 0));
        return '';
      },
      answered: () => {
        const rows = document.querySelector('main table[aria-rowcount]')?.getAttribute('aria-rowcount');
        return document.querySelector(`main tr[aria-rowindex="${rows}"]`) !== null;
      },
    },
    {
      name: 'Ctrl+F in the record book: its own search',
      key: 'Control+f',
      barMs: SCROLL_MS,
      before: atTop,
      answered: () => document.activeElement?.matches('main [type=search]') === true,
    },
    {
      name: 'Ctrl+F again: every row, for the browser’s search',
      key: 'Control+f',
      barMs: PLACE_MS,
      rounds: 1,
      async before() {
        await atTop();
        await page.locator('main [type=search]').focus();
        return '';
      },
      answered: () => document.querySelectorAll('main table:not([aria-rowcount]) tbody tr').length > 3000,
    },
  ];
}
