import type * as Pages from './pages.ts';
import type * as Charts from './season-pages.ts';
import { createRouter, createWebHashHistory, type RouteRecordRaw, type Router } from 'vue-router';

declare module 'vue-router' {
  interface RouteMeta {
    /** The place that the navigation marks. */
    place: string;
  }
}

/** A page of `pages.ts`, or of `season-pages.ts`; the script with all of them is fetched on the first visit. */
const page = (name: keyof typeof Pages) => async () => (await import('./pages.ts'))[name];
const chart = (name: keyof typeof Charts) => async () => (await import('./season-pages.ts'))[name];

/** The page that a scanned ticket opens. */
export const animalPage = page('AnimalPage');

/** The routes. Each page is loaded on its first visit. */
export const routes: readonly RouteRecordRaw[] = [
  { path: '/', redirect: '/rail' },
  { path: '/rail', meta: { place: 'rail' }, component: page('RailPage') },
  { path: '/intake', meta: { place: 'intake' }, component: page('IntakePage') },
  { path: '/slips', meta: { place: 'intake' }, component: page('SlipsPage') },
  { path: '/table', meta: { place: 'table' }, component: page('TablePage') },
  {
    path: '/table/:ticket',
    meta: { place: 'table' },
    component: animalPage,
    props: true,
  },
  { path: '/grinder', meta: { place: 'grinder' }, component: page('GrinderPage') },
  {
    path: '/grinder/:id',
    meta: { place: 'grinder' },
    component: page('BatchPage'),
  },
  { path: '/smokehouse', meta: { place: 'smokehouse' }, component: page('SmokehousePage') },
  { path: '/smokehouse/load/:id', meta: { place: 'smokehouse' }, component: page('LoadPage') },
  { path: '/smokehouse/load/:id/log/:log', meta: { place: 'smokehouse' }, component: page('LogPage') },
  { path: '/smokehouse/recipe/:id', meta: { place: 'smokehouse' }, component: page('RecipePage') },
  { path: '/smokehouse/batch/:id', meta: { place: 'smokehouse' }, component: page('MadePage') },
  {
    path: '/smokehouse/batch/:id/paper',
    meta: { place: 'smokehouse' },
    component: page('SheetPage'),
    props: true,
  },
  {
    path: '/label/made/:id',
    meta: { place: 'smokehouse' },
    component: page('MadeLabels'),
    props: true,
  },
  {
    path: '/label/batch/:id',
    meta: { place: 'grinder' },
    component: page('BatchLabels'),
    props: true,
  },
  {
    path: '/label/animal/:ticket',
    meta: { place: 'table' },
    component: page('AnimalLabels'),
    props: true,
  },
  {
    path: '/label/tag/:ticket',
    meta: { place: 'intake' },
    component: page('TagPage'),
    props: true,
  },
  {
    path: '/cut-sheet/:ticket',
    meta: { place: 'table' },
    component: page('CutSheetPage'),
    props: true,
  },
  {
    path: '/bill/:ticket',
    meta: { place: 'pickup' },
    component: page('BillPage'),
    props: true,
  },
  {
    path: '/receipt/:ticket',
    meta: { place: 'intake' },
    component: page('DropOffPage'),
    props: true,
  },
  {
    path: '/receipt/:ticket/:id',
    meta: { place: 'pickup' },
    component: page('ReceiptPage'),
    props: true,
  },
  { path: '/quote', meta: { place: 'quote' }, component: page('QuotePage') },
  {
    path: '/quote/:id/paper',
    meta: { place: 'quote' },
    component: page('QuotePaperPage'),
    props: true,
  },
  { path: '/pickup', meta: { place: 'pickup' }, component: page('PickupPage') },
  { path: '/till', meta: { place: 'pickup' }, component: page('TillPage') },
  {
    path: '/till/statement/:hunterId',
    meta: { place: 'pickup' },
    component: page('StatementPage'),
    props: true,
  },
  {
    path: '/notice/:ticket/:step',
    meta: { place: 'pickup' },
    component: page('LetterPage'),
    props: true,
  },
  { path: '/season', meta: { place: 'season' }, component: chart('YieldsPage') },
  {
    path: '/season/pounds',
    meta: { place: 'season' },
    component: chart('PoundsPage'),
  },
  { path: '/season/fat', meta: { place: 'season' }, component: chart('FatPage') },
  { path: '/season/check', meta: { place: 'season' }, component: chart('CheckPage') },
  {
    path: '/season/compare',
    meta: { place: 'season' },
    component: chart('ComparePage'),
  },
  {
    path: '/season/report',
    meta: { place: 'season' },
    component: chart('ReportPage'),
  },
  {
    path: '/season/animals',
    meta: { place: 'season' },
    component: chart('AnimalsPage'),
  },
  { path: '/season/flow', meta: { place: 'season' }, component: chart('FlowPage') },
  { path: '/season/money', meta: { place: 'season' }, component: chart('MoneyPage') },
  { path: '/season/shops', meta: { place: 'season' }, component: chart('ShopsPage') },
  { path: '/season/costs', meta: { place: 'season' }, component: chart('CostsPage') },
  { path: '/books', meta: { place: 'books' }, component: page('BooksPage') },
  {
    path: '/books/paper',
    meta: { place: 'books' },
    component: page('RecordPaperPage'),
  },
  { path: '/terms', meta: { place: 'shop' }, component: page('TermsPage') },
  { path: '/card', meta: { place: 'shop' }, component: page('CardPage') },
  { path: '/about', meta: { place: 'shop' }, component: page('AboutPage') },
  { path: '/handbook/:page?', meta: { place: 'shop' }, component: page('HandbookPage'), props: true },
  { path: '/shop', meta: { place: 'shop' }, component: page('ShopPage') },
  {
    path: '/cooler/:id',
    meta: { place: 'shop' },
    component: page('CoolerPage'),
    props: true,
  },
  {
    path: '/cautions',
    meta: { place: 'shop' },
    component: page('CautionsPage'),
  },
  { path: '/:rest(.*)*', redirect: '/rail' },
];

export function makeRouter(): Router {
  const router = createRouter({ history: createWebHashHistory(), routes: [...routes] });
  // All parts on one page, for developers: a production build leaves it out.
  if (import.meta.env.DEV)
    router.addRoute({
      path: '/parts',
      meta: { place: '' },
      component: () => import('./samples/SamplesPage.vue'),
    });
  return router;
}
