/** The screens of a station's place. */
import { defineAsyncComponent, type Component } from 'vue';
import type { Place } from '../../../trade/place.ts';

/** Fetched when the station opens, so that a station loads its own place alone. A place without an entry has no screen yet. */
export const places: Partial<Record<Place, Component>> = {
  counter: defineAsyncComponent(() => import('./counter/CounterPlace.vue')),
  cooler: defineAsyncComponent(() => import('./cooler/CoolerPlace.vue')),
  grinder: defineAsyncComponent(() => import('./grinder/GrinderPlace.vue')),
  hunter: defineAsyncComponent(() => import('./hunter/HunterPlace.vue')),
  pickup: defineAsyncComponent(() => import('./pickup/PickupPlace.vue')),
  smokehouse: defineAsyncComponent(() => import('./smokehouse/SmokehousePlace.vue')),
  table: defineAsyncComponent(() => import('./table/TablePlace.vue')),
};
