/** The pages with charts, which take a large package: fetched on the first visit of one. */
export { default as CostsPage } from './costs/CostsPage.vue';
export { default as AnimalsPage } from './season/AnimalsPage.vue';
export { default as CheckPage } from './season/CheckPage.vue';
export { default as ComparePage } from './season/ComparePage.vue';
export { default as FatPage } from './season/FatPage.vue';
export { default as FlowPage } from './season/FlowPage.vue';
export { default as MoneyPage } from './season/MoneyPage.vue';
export { default as PoundsPage } from './season/PoundsPage.vue';
export { default as ReportPage } from './season/ReportPage.vue';
export { default as ShopsPage } from './season/ShopsPage.vue';
export { default as YieldsPage } from './season/YieldsPage.vue';
