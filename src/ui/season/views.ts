import { costsText } from '../texts/en-costs.ts';
import { frameText as text } from '../texts/en-season-frame.ts';

/** The views of a season, in the order of their tabs. */
export const views: readonly { path: string; label: string; labelKilo?: string }[] = [
  { path: '/season', label: text.views.yields },
  { path: '/season/costs', label: costsText.costs },
];
