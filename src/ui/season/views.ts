import { costsText } from '../texts/en-costs.ts';
import { frameText as text } from '../texts/en-season-frame.ts';

/** The views of a season, in the order of their tabs. */
export const views: readonly { path: string; label: string; labelKilo?: string }[] = [
  { path: '/season', label: text.views.yields },
  { path: '/season/pounds', label: text.views.pounds, labelKilo: text.views.poundsKilo },
  { path: '/season/flow', label: text.views.flow },
  { path: '/season/money', label: text.views.money },
  { path: '/season/fat', label: text.views.fat },
  { path: '/season/check', label: text.views.check },
  { path: '/season/compare', label: text.views.compare },
  { path: '/season/animals', label: text.views.animals },
  { path: '/season/costs', label: costsText.costs },
];
