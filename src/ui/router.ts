import { createRouter, createWebHashHistory, type RouteRecordRaw, type Router } from 'vue-router';

declare module 'vue-router' {
  interface RouteMeta {
    /** The place that the navigation marks. */
    place: string;
  }
}

/** The page that a scanned ticket opens. */
export const animalPage = () => import('./table/AnimalPage.vue');

/** The routes. Each page is loaded on its first visit. */
export const routes: readonly RouteRecordRaw[] = [
  { path: '/', redirect: '/rail' },
  { path: '/rail', meta: { place: 'rail' }, component: () => import('./rail/RailPage.vue') },
  { path: '/intake', meta: { place: 'intake' }, component: () => import('./intake/IntakePage.vue') },
  { path: '/table', meta: { place: 'table' }, component: () => import('./table/TablePage.vue') },
  {
    path: '/table/:ticket',
    meta: { place: 'table' },
    component: animalPage,
    props: true,
  },
  { path: '/grinder', meta: { place: 'grinder' }, component: () => import('./grinder/GrinderPage.vue') },
  {
    path: '/grinder/:id',
    meta: { place: 'grinder' },
    component: () => import('./batch/BatchPage.vue'),
  },
  {
    path: '/label/batch/:id',
    meta: { place: 'grinder' },
    component: () => import('./labels/BatchLabels.vue'),
    props: true,
  },
  {
    path: '/label/animal/:ticket',
    meta: { place: 'table' },
    component: () => import('./labels/AnimalLabels.vue'),
    props: true,
  },
  {
    path: '/label/tag/:ticket',
    meta: { place: 'intake' },
    component: () => import('./labels/TagPage.vue'),
    props: true,
  },
  {
    path: '/cut-sheet/:ticket',
    meta: { place: 'table' },
    component: () => import('./orders/CutSheetPage.vue'),
    props: true,
  },
  {
    path: '/bill/:ticket',
    meta: { place: 'pickup' },
    component: () => import('./bill/BillPage.vue'),
    props: true,
  },
  {
    path: '/receipt/:ticket',
    meta: { place: 'intake' },
    component: () => import('./receipt/DropOffPage.vue'),
    props: true,
  },
  {
    path: '/receipt/:ticket/:id',
    meta: { place: 'pickup' },
    component: () => import('./receipt/ReceiptPage.vue'),
    props: true,
  },
  { path: '/quote', meta: { place: 'quote' }, component: () => import('./quote/QuotePage.vue') },
  {
    path: '/quote/:id/paper',
    meta: { place: 'quote' },
    component: () => import('./quote/QuotePaperPage.vue'),
    props: true,
  },
  { path: '/pickup', meta: { place: 'pickup' }, component: () => import('./pickup/PickupPage.vue') },
  { path: '/till', meta: { place: 'pickup' }, component: () => import('./till/TillPage.vue') },
  {
    path: '/till/statement/:hunterId',
    meta: { place: 'pickup' },
    component: () => import('./till/StatementPage.vue'),
    props: true,
  },
  {
    path: '/notice/:ticket/:step',
    meta: { place: 'pickup' },
    component: () => import('./leaving/LetterPage.vue'),
    props: true,
  },
  { path: '/season', meta: { place: 'season' }, component: () => import('./season/YieldsPage.vue') },
  {
    path: '/season/pounds',
    meta: { place: 'season' },
    component: () => import('./season/PoundsPage.vue'),
  },
  { path: '/season/fat', meta: { place: 'season' }, component: () => import('./season/FatPage.vue') },
  { path: '/season/check', meta: { place: 'season' }, component: () => import('./season/CheckPage.vue') },
  {
    path: '/season/compare',
    meta: { place: 'season' },
    component: () => import('./season/ComparePage.vue'),
  },
  {
    path: '/season/report',
    meta: { place: 'season' },
    component: () => import('./season/ReportPage.vue'),
  },
  {
    path: '/season/animals',
    meta: { place: 'season' },
    component: () => import('./season/AnimalsPage.vue'),
  },
  { path: '/season/flow', meta: { place: 'season' }, component: () => import('./season/FlowPage.vue') },
  { path: '/season/money', meta: { place: 'season' }, component: () => import('./season/MoneyPage.vue') },
  { path: '/season/costs', meta: { place: 'season' }, component: () => import('./costs/CostsPage.vue') },
  { path: '/books', meta: { place: 'books' }, component: () => import('./books/BooksPage.vue') },
  {
    path: '/books/paper',
    meta: { place: 'books' },
    component: () => import('./books/RecordPaperPage.vue'),
  },
  { path: '/terms', meta: { place: 'shop' }, component: () => import('./terms/TermsPage.vue') },
  { path: '/card', meta: { place: 'shop' }, component: () => import('./card/CardPage.vue') },
  { path: '/about', meta: { place: 'shop' }, component: () => import('./about/AboutPage.vue') },
  { path: '/shop', meta: { place: 'shop' }, component: () => import('./shop/ShopPage.vue') },
  {
    path: '/cooler/:id',
    meta: { place: 'shop' },
    component: () => import('./cooler/CoolerPage.vue'),
    props: true,
  },
  {
    path: '/cautions',
    meta: { place: 'shop' },
    component: () => import('./cautions/CautionsPage.vue'),
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
