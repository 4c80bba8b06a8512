/** Which page of the handbook tells of a page of the window. */
import type { RouteLocationNormalizedLoaded } from 'vue-router';

/** @returns its address; that of a page of the handbook itself leads to the first one */
export function handbookOf({ path, meta }: Pick<RouteLocationNormalizedLoaded, 'path' | 'meta'>): string {
  if (path.startsWith('/till')) return '/handbook/till';
  if (path.startsWith('/handbook') || typeof meta.place !== 'string') return '/handbook';
  return `/handbook/${meta.place}`;
}
