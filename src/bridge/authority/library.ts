/** The package that makes certificates. It is loaded when stations are switched on, and not before. */
import type * as Library from '@peculiar/x509';

let loaded: Promise<typeof Library> | undefined;

/** The package expects `reflect-metadata` to be there when it is loaded. */
export function x509(): Promise<typeof Library> {
  loaded ??= import('reflect-metadata').then(() => import('@peculiar/x509'));
  return loaded;
}
