/** What a hand types, and saves, all day. */
import { animalToWeigh } from '../desk-work.ts';
import type { Act } from './hand.ts';
import type { LargeShop } from './large-shop.ts';

const BAR_MS = 100;

/** An animal at the Table that is weighed for the first time. */
export async function animalAtTable(call: LargeShop['call']): Promise<{ id: number; ticket: string }> {
  const id = await animalToWeigh({ call });
  const { ticket } = await call('animals.get', { id });
  return { id, ticket };
}

export async function typingActs({ hand, call }: LargeShop): Promise<Act[]> {
  const { page } = hand;
  const { ticket } = await animalAtTable(call);
  const at = async (hash: string): Promise<void> => {
    if (!page.url().endsWith(hash)) await hand.goTo(hash);
  };
  const weight = page.locator('main .inside input');
  const quoted = page.getByLabel('Weight', { exact: true });
  const find = page.getByRole('search').getByRole('combobox');
  const intake = page.getByRole('combobox', { name: 'Name or phone number' });
  const records = page.locator('main').getByLabel('Find', { exact: true });

  return [
    {
      name: 'Enter on a weight at the Table',
      key: 'Enter',
      barMs: BAR_MS,
      async before(round) {
        const typed = `1.${10 + round}`;
        await at(`#/table/${ticket}`);
        await weight.fill(typed);
        return `${typed} lb`;
      },
      answered: (about) =>
        document.querySelector<HTMLInputElement>('main .inside input')?.value === '' &&
        [...document.querySelectorAll('main table')].some(
          (table) =>
            table.querySelector('caption')?.textContent.includes('Weights') &&
            table.textContent.includes(about),
        ),
    },
    {
      name: 'a digit of a weight at the Table',
      key: '5',
      barMs: BAR_MS,
      async before() {
        await at(`#/table/${ticket}`);
        await weight.fill('');
        await weight.focus();
        return '= ';
      },
      answered: (about) => document.querySelector('main .inside .echo')?.textContent.includes(about) === true,
    },
    {
      name: 'a digit in a quote',
      key: '5',
      barMs: BAR_MS,
      async before(round) {
        await at('#/quote');
        await page.getByRole('radio', { name: 'Elk', exact: true }).check({ force: true });
        await quoted.fill(String(30 + (round % 9)));
        await hand.rest();
        await quoted.press('End');
        return '';
      },
      // So light an elk is doubted: there are no figures yet.
      answered: () => document.querySelector('.answer-side .two') !== null,
    },
    {
      name: 'a letter in Find',
      key: 'd',
      barMs: BAR_MS,
      async before() {
        await at('#/card');
        await find.fill('');
        await find.focus();
        return 'd';
      },
      answered: listed,
    },
    {
      name: 'a letter of a hunter at Intake',
      key: 'w',
      barMs: BAR_MS,
      async before() {
        await at('#/intake');
        await intake.fill('');
        await intake.focus();
        return 'w';
      },
      answered: listed,
    },
    {
      name: 'a letter in Find of the record book',
      key: 'w',
      barMs: BAR_MS,
      async before() {
        await at('#/books?season=2026&tab=records');
        await records.fill('');
        await hand.rest();
        await records.focus();
        return page.locator('main .row-apart p').first().innerText();
      },
      answered: (about) => document.querySelector('main .row-apart p')?.textContent.trim() !== about,
    },
  ];
}

/** A list of options stands there, each with what was typed. */
function listed(about: string): boolean {
  const options = [...document.querySelectorAll('[role=option]')];
  return options.length > 0 && options.every((one) => one.textContent.toLowerCase().includes(about));
}
