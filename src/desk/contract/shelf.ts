/** What the shop can put on and off its shelf, as a window sees it: what is offered and what is put away. */
import type { ProductCard, SpeciesCard, TemplateCard } from './shop.ts';

interface OnShelf {
  /** Whether it came with the program, changed or not. */
  supplied: boolean;
  /** False: put away, not offered any more. */
  offered: boolean;
}

export interface SpeciesOnShelf extends SpeciesCard, OnShelf {
  /** The supplied species whose figures it took over; null for a supplied one. */
  like: string | null;
  hangingGrams: { least: number; typical: number; most: number };
}

export interface ProductOnShelf extends ProductCard, OnShelf {}

export interface TemplateOnShelf extends TemplateCard, OnShelf {}

export interface ShelfView {
  species: SpeciesOnShelf[];
  products: ProductOnShelf[];
  templates: TemplateOnShelf[];
}
