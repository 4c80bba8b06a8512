/** Every page of the window and its dialogs, visited one after another in the demo season. */
import type { Page } from 'playwright-core';
import type { AnimalPage } from '../../src/bridge/contract.ts';
import { deskLine } from './desk-line.ts';

/** Tickets and ids in the addresses of pages. */
export interface Subjects {
  /** On the table, with doubtful weights. */
  suspect: string;
  /** Hanging, with consistent weights. */
  plain: string;
  /** On hold, so it cannot be handed over. */
  held: string;
  /** Packed, ready for pickup, not billed. */
  packed: string;
  /** Billed and picked up. */
  billed: string;
  /** A payment of the billed one. */
  payment: number;
  /** A hunter with an open balance. */
  debtor: number;
  /** An unfinished pooled batch. */
  batch: number;
  /** A finished and packed batch. */
  ground: number;
  quote: number;
  /** A packed batch of the smokehouse with a cure. */
  made: number;
  load: number;
  /** A log of that load. */
  log: number;
}

export interface Place {
  name: string;
  /** The hash of the address, without `#`. */
  at: (subjects: Subjects) => string;
  /** The component of the dialog that is open. */
  sheet?: string;
  /** The steps to perform. */
  act?: (page: Page) => Promise<void>;
  /** The element that must then be visible. */
  sees: RegExp;
}

const press = (name: string | RegExp) => (page: Page) => page.getByRole('button', { name }).first().click();

async function planOne(page: Page): Promise<void> {
  await page
    .getByRole('checkbox', { name: /^Grind \d/ })
    .first()
    .check();
  await page.getByRole('radio', { name: 'Pork back fat' }).check({ force: true });
  await page.getByLabel('Target fat').fill('12.5');
  await page.getByText(/9 in 10 such batches come out between/).waitFor();
}

async function askQuote(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'Elk', exact: true }).check({ force: true });
  await page.getByLabel('Weight', { exact: true }).fill('340');
  await page.getByRole('heading', { name: 'Take-home meat' }).waitFor();
}

/** The record book of a season has hundreds of similar rows: a few represent all. */
async function fewRecords(page: Page): Promise<void> {
  await page.locator('main').getByLabel('Find', { exact: true }).fill('26-000');
  await page.getByText(/^9 entries/).waitFor();
}

async function fewHunters(page: Page): Promise<void> {
  await page.locator('main').getByLabel('Find a hunter').fill('an');
}

async function newPriceLine(page: Page): Promise<void> {
  await press('Change prices')(page);
  await press('Add line')(page);
}

async function newHunter(page: Page): Promise<void> {
  await fewHunters(page);
  await press('New hunter')(page);
}

async function voidReading(page: Page): Promise<void> {
  await page
    .locator('summary')
    .filter({ hasText: /: readings$/ })
    .first()
    .click();
  await press(/^Void .*°/)(page);
}

async function restoreBackup(page: Page): Promise<void> {
  const ways = page.getByRole('button', { name: /^Restore this backup/ });
  if ((await ways.count()) === 0) await press('Back up now')(page);
  await ways.first().click();
}

async function startTour(page: Page): Promise<void> {
  await press(/^Demo/)(page);
  await press(/^(Start the tour|Continue the tour)/)(page);
}

async function newHand(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Who is working/ }).click();
}

/** Opens the recipe of this name, which comes with the program; adds it first, if nobody has. */
const recipe = (name: string) => async (page: Page) => {
  const add = page.getByRole('button', { name: `Add ${name}`, exact: true });
  const there = page.getByRole('link', { name, exact: true });
  await add.or(there).first().waitFor();
  await ((await there.count()) > 0 ? there : add).first().click();
  await page.getByText(/^On 100 lb of meat/).waitFor();
};

async function newIngredient(page: Page): Promise<void> {
  await press('New ingredient')(page);
  await page.getByRole('radio', { name: 'Cure', exact: true }).check({ force: true });
}

/** Animals and papers of a served demo that cover the pages. */
export async function subjectsOf(address: string): Promise<Subjects> {
  const desk = await deskLine(address);
  const records = await desk('records.list', {});
  // Sequential, because hundreds of concurrent requests would exceed the server's timeout.
  const pages = new Map<string, AnimalPage>();
  const { hooks, ready } = await desk('rail.get', {});
  const here = new Map<string, { stage?: AnimalPage['stage']; hold: string | null }>(
    [...hooks, ...ready].map((animal) => [animal.ticket, animal]),
  );
  /** The first by ticket; `worthALook` says of which animals the whole page is asked, which takes the desk long. */
  const ticketOf = async (
    what: string,
    worthALook: (ticket: string) => boolean,
    fits: (page: AnimalPage) => boolean,
  ): Promise<string> => {
    for (const { ticket } of records) {
      if (!worthALook(ticket)) continue;
      const page = pages.get(ticket) ?? (await desk('animals.get', { ticket }));
      pages.set(ticket, page);
      if (fits(page)) return ticket;
    }
    throw new Error(`The demo has no ${what}.`);
  };
  const { open, recent } = await desk('grinder.get', {});
  const [pooled] = [...open].sort((a, b) => b.tickets.length - a.tickets.length);
  const [quote] = await desk('quotes.list', {});
  const [packed] = await desk('pickup.get', {});
  const made = await desk('made.list', {});
  const loads = await desk('loads.list', {});
  const smoked = [...made.recent, ...made.open].find(
    ({ packages, finish }) => packages > 0 && finish !== 'raw',
  );
  const load = [...loads.recent, ...loads.open][0]?.id ?? 0;
  const { logs } = await desk('loads.get', { id: load });
  const ground = recent[0];
  if (!pooled || !ground || !quote || !packed)
    throw new Error('The demo has no open batch, no ground one, no quote, or nothing packed.');
  const billed = await ticketOf(
    'animal that went home',
    (ticket) => !here.has(ticket),
    ({ stage }) => stage === 'released',
  );
  const owing = (await desk('till.listOwed', {})).find(({ due }) => due.some(({ dueMinor }) => dueMinor > 0));
  const { payments } = await desk('bills.get', { animalId: pages.get(billed)?.id ?? 0 });
  return {
    payment: payments[0]?.id ?? 0,
    debtor: owing?.hunterId ?? 0,
    suspect: await ticketOf(
      'doubted animal',
      (ticket) => here.get(ticket)?.stage === 'cutting',
      ({ balance, detail, stage }) =>
        stage === 'cutting' &&
        balance.suspects.length > 0 &&
        (detail === 'detailed' || balance.overGrams > 0),
    ),
    plain: await ticketOf(
      'agreed animal',
      (ticket) => here.get(ticket)?.stage === 'hanging',
      ({ balance, stage }) => balance.suspects.length === 0 && stage === 'hanging',
    ),
    held: await ticketOf(
      'held animal',
      (ticket) => typeof here.get(ticket)?.hold === 'string',
      ({ hold, stage }) => hold !== null && !hold.positive && stage !== 'released',
    ),
    batch: pooled.id,
    ground: ground.id,
    quote: quote.id,
    made: smoked?.id ?? 0,
    load,
    log: logs[0]?.id ?? 0,
    packed: packed.ticket,
    billed,
  };
}

/** In the order of the routes; a dialog follows its page. */
export const PLACES: readonly Place[] = [
  { name: 'rail', at: () => '/rail', sees: /On the rail, in cutting order/ },
  {
    name: 'sheet: keys',
    sheet: 'frame/KeyMap.vue',
    at: () => '/rail',
    act: press('Keys'),
    sees: /Find a ticket or a hunter/,
  },
  {
    name: 'sheet: hang',
    sheet: 'rail/HangDialog.vue',
    at: () => '/rail',
    act: press(/^Hang /),
    sees: /Cooler/,
  },
  {
    name: 'sheet: void a reading',
    sheet: 'rail/CoolerReadings.vue',
    at: () => '/rail',
    act: voidReading,
    sees: /Void .*\?/,
  },
  { name: 'intake', at: () => '/intake', sees: /Returning hunters appear as you type/ },
  { name: 'slips', at: () => '/slips', sees: /Scan or type the slip/ },
  { name: 'tables', at: () => '/table', sees: /On the table now/ },
  { name: 'table of a doubted animal', at: (of) => `/table/${of.suspect}`, sees: /This does not add up/ },
  { name: 'table of an agreed animal', at: (of) => `/table/${of.plain}`, sees: /Where every pound/ },
  { name: 'table of a held animal', at: (of) => `/table/${of.held}`, sees: /do not release/ },
  {
    name: 'sheet: edit record',
    sheet: 'record/EditDialog.vue',
    at: (of) => `/table/${of.plain}?edit=1`,
    sees: /Reason for the change/,
  },
  {
    name: 'sheet: cut sheet',
    sheet: 'table/OrdersCard.vue',
    at: (of) => `/table/${of.plain}`,
    act: press('Edit cut sheet'),
    sees: /Cancel/,
  },
  {
    name: 'sheet: void a weight',
    sheet: 'weighing/VoidDialog.vue',
    at: (of) => `/table/${of.plain}`,
    act: press(/^Void .* \d/),
    sees: /Void .*\?/,
  },
  {
    name: 'sheet: hold',
    sheet: 'holds/HoldDialog.vue',
    at: (of) => `/table/${of.held}`,
    act: press('Lift hold'),
    sees: /For example: entered for the wrong animal/,
  },
  {
    name: 'sheet: test result',
    sheet: 'holds/ResultDialog.vue',
    at: (of) => `/table/${of.held}`,
    act: press('Enter test result'),
    sees: /Not detected/,
  },
  {
    name: 'sheet: dispose',
    sheet: 'holds/DisposalDialog.vue',
    at: (of) => `/table/${of.plain}`,
    act: press('Record disposal'),
    sees: /When|stays in the book|record book keeps it/,
  },
  { name: 'drop-off receipt', at: (of) => `/receipt/${of.plain}`, sees: /Bring this receipt/ },
  { name: 'cut sheet', at: (of) => `/cut-sheet/${of.plain}`, sees: /Print cut sheet/ },
  { name: 'receipt', at: (of) => `/receipt/${of.billed}/${of.payment}`, sees: /Print receipt/ },
  {
    name: 'sheet: hunters who share',
    sheet: 'shares/SharesDialog.vue',
    at: (of) => `/table/${of.plain}`,
    act: press('Split among hunters'),
    sees: /Shared by/,
  },
  {
    name: 'sheet: move a weight',
    sheet: 'weighing/MoveDialog.vue',
    at: (of) => `/table/${of.plain}`,
    act: press(/^Move /),
    sees: /The number on the tag of the right animal|typed weight and its time/,
  },
  { name: 'tag', at: (of) => `/label/tag/${of.plain}`, sees: /Shown at actual size/ },
  { name: 'labels of an animal', at: (of) => `/label/animal/${of.billed}`, sees: /Each package weighs/ },
  { name: 'grinder with nothing picked', at: () => '/grinder', sees: /Pick what to grind/ },
  { name: 'grinder with a plan', at: () => '/grinder', act: planOne, sees: /Start this batch/ },
  {
    name: 'sheet: receive fat',
    sheet: 'fat/BuyFat.vue',
    at: () => '/grinder',
    act: press('Receive fat'),
    sees: /Supplier and lot/,
  },
  { name: 'batch', at: (of) => `/grinder/${of.batch}`, sees: /Fat as weighed in/ },
  { name: 'labels of a batch', at: (of) => `/label/batch/${of.ground}`, sees: /Each package weighs/ },
  {
    name: 'smokehouse today',
    at: () => '/smokehouse',
    sees: /Nothing is in the smokehouse|In since/,
  },
  { name: 'smokehouse losses', at: () => '/smokehouse?tab=losses', sees: /Each mark is a batch/ },
  { name: 'smokehouse batches', at: () => '/smokehouse?tab=batches', sees: /New batch/ },
  { name: 'smokehouse batch', at: (of) => `/smokehouse/batch/${of.made}`, sees: /Print batch sheet/ },
  { name: 'batch sheet', at: (of) => `/smokehouse/batch/${of.made}/paper`, sees: /Cure goes in last/ },
  { name: 'labels of the smokehouse', at: (of) => `/label/made/${of.made}`, sees: /Each package weighs/ },
  { name: 'loads', at: () => '/smokehouse?tab=loads', sees: /Finished loads|Nothing is in the smokehouse/ },
  { name: 'load', at: (of) => `/smokehouse/load/${of.load}`, sees: /What it must reach/ },
  { name: 'log', at: (of) => `/smokehouse/load/${of.load}/log/${of.log}`, sees: /Readings of probe/ },
  { name: 'recipes', at: () => '/smokehouse?tab=recipes', sees: /Recipes to start from/ },
  { name: 'new recipe', at: () => '/smokehouse/recipe/new', sees: /Seasoning, cure and water/ },
  {
    name: 'recipe',
    at: () => '/smokehouse?tab=recipes',
    act: recipe('Summer sausage'),
    sees: /Seasoning, cure and water/,
  },
  {
    name: 'sheet: ingredient',
    sheet: 'smokehouse/recipes/IngredientDialog.vue',
    at: () => '/smokehouse?tab=recipes',
    act: newIngredient,
    sees: /as printed/,
  },
  { name: 'quote without a weight', at: () => '/quote', sees: /^Type a weight/ },
  { name: 'quote with an answer', at: () => '/quote', act: askQuote, sees: /Phone script/ },
  { name: 'quote on paper', at: (of) => `/quote/${of.quote}/paper`, sees: /Good until/ },
  { name: 'notice as a letter', at: (of) => `/notice/${of.packed}/first`, sees: /Print letter/ },
  { name: 'pickup', at: () => '/pickup', sees: /Ready for pickup, waiting/ },
  {
    name: 'sheet: call',
    sheet: 'pickup/CallDialog.vue',
    at: () => '/pickup',
    act: press(/^Call about/),
    sees: /Save note/,
  },
  {
    name: 'sheet: hand over',
    sheet: 'pickup/HandOver.vue',
    at: () => '/pickup',
    act: press(/^Hand over/),
    sees: /Handed to/,
  },
  { name: 'till', at: () => '/till', sees: /Cash expected/ },
  { name: 'open balances', at: () => '/till?tab=owed', sees: /owed by/ },
  {
    name: 'sheet: reminder',
    sheet: 'till/ReminderDialog.vue',
    at: () => '/till?tab=owed',
    act: press(/^Remind about/),
    sees: /Copy message/,
  },
  { name: 'statement', at: (of) => `/till/statement/${of.debtor}`, sees: /Print statement/ },
  { name: 'for the accountant', at: () => '/till?tab=accountant', sees: /Save journal/ },
  { name: 'bill to be made', at: (of) => `/bill/${of.packed}`, sees: /Bill preview/ },
  { name: 'bill', at: (of) => `/bill/${of.billed}`, sees: /Print bill/ },
  { name: 'season', at: () => '/season', sees: /What makes a difference/ },
  { name: 'season of one species', at: () => '/season?species=elk', sees: /What makes a difference: Elk/ },
  { name: 'where every pound went', at: () => '/season/pounds', sees: /Species side by side/ },
  { name: 'flow', at: () => '/season/flow', sees: /Intake by day/ },
  { name: 'money', at: () => '/season/money', sees: /Billed and cost, by service/ },
  { name: 'fat', at: () => '/season/fat', sees: /What the fat came from/ },
  { name: 'quotes kept', at: () => '/season/check', sees: /Quote accuracy by species/ },
  { name: 'compare', at: () => '/season/compare', sees: /The true difference is|No clear difference/ },
  { name: 'animals', at: () => '/season/animals?species=moose&order=bone', sees: /Hanging weight/ },
  { name: 'season report', at: () => '/season/report', sees: /Sources and chart notes/ },
  { name: 'costs', at: () => '/season/costs', sees: /By species/ },
  { name: 'record book', at: () => '/books', act: fewRecords, sees: /^9 entries/ },
  { name: 'record book on paper', at: () => '/books/paper?season=2026&text=26-000', sees: /9 entries/ },
  { name: 'prices', at: () => '/books?tab=prices', sees: /in effect since/ },
  {
    name: 'sheet: price line',
    sheet: 'books/PriceLineDialog.vue',
    at: () => '/books?tab=prices',
    act: newPriceLine,
    sees: /Save line/,
  },
  { name: 'donations', at: () => '/books?tab=donations', sees: /Each donation/ },
  { name: 'fat on hand', at: () => '/books?tab=fat', sees: /Show used-up lots/ },
  {
    name: 'sheet: lot',
    sheet: 'books/LotDialog.vue',
    at: () => '/books?tab=fat',
    act: press(/^Edit /),
    sees: /Lot history/,
  },
  { name: 'hunters', at: () => '/books?tab=hunters', act: fewHunters, sees: /Find a hunter/ },
  {
    name: 'sheet: hunter',
    sheet: 'books/HunterDialog.vue',
    at: () => '/books?tab=hunters',
    act: newHunter,
    sees: /Own meat only/,
  },
  { name: 'species', at: () => '/books?tab=species', sees: /New species/ },
  {
    name: 'sheet: species',
    sheet: 'shelf/SpeciesDialog.vue',
    at: () => '/books?tab=species',
    act: press('New species'),
    sees: /Similar to/,
  },
  { name: 'products', at: () => '/books?tab=products', sees: /New product/ },
  {
    name: 'sheet: product',
    sheet: 'shelf/ProductDialog.vue',
    at: () => '/books?tab=products',
    act: press('New product'),
    sees: /Other ingredients/,
  },
  { name: 'templates', at: () => '/books?tab=ways', sees: /Kept as cuts/ },
  {
    name: 'sheet: template',
    sheet: 'shelf/TemplateDialog.vue',
    at: () => '/books?tab=ways',
    act: press(/^New template/),
    sees: /Any animal/,
  },
  { name: 'files', at: () => '/books?tab=files', sees: /Your records are yours/ },
  { name: 'shop', at: () => '/shop', sees: /Who works here/ },
  { name: 'ledger', at: () => '/shop?at=ledger', sees: /The demo season is never sent/ },
  { name: 'stations', at: () => '/shop?at=stations', sees: /^Off\. No other device/ },
  {
    name: 'sheet: cooler',
    sheet: 'shop/CoolerList.vue',
    at: () => '/shop',
    act: press(/^Add a cooler/),
    sees: /Cancel/,
  },
  {
    name: 'sheet: restore a backup',
    sheet: 'backup/RestoreDialog.vue',
    at: () => '/shop',
    act: restoreBackup,
    sees: /Restore the backup of [A-Z]/,
  },
  {
    name: 'sheet: someone new',
    sheet: 'frame/Initials.vue',
    at: () => '/rail',
    act: newHand,
    sees: /Someone new/,
  },
  { name: 'a cooler', at: () => '/cooler/1', sees: /Day by day/ },
  { name: 'cautions', at: () => '/cautions', sees: /Local rules and your license come first/ },
  { name: 'words of the trade', at: () => '/terms', sees: /As this program uses them/ },
  {
    name: 'a word explained',
    at: () => '/grinder',
    act: press('Trim waiting'),
    sees: /What is thrown out is not trim/,
  },
  { name: 'quick card', at: () => '/card', sees: /How to type a weight/ },
  {
    name: 'tour',
    at: () => '/rail',
    act: startTour,
    sees: /^Stop \d of 5/,
  },
  { name: 'about', at: () => '/about', sees: /Open-source packages/ },
  { name: 'handbook', at: () => '/handbook/table', sees: /How do I weigh a part/ },
];

/** Where the list is split, so that two workers visit it concurrently. */
export const HALF_OF_PLACES = Math.ceil(PLACES.length / 2);
