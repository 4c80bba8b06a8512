/** Which animals are learned together. */
import { ValidationError } from '../values/validation-error.ts';
import type { Group } from './observation.ts';
import { baseOf, type Base } from './tree.ts';

/** Carcasses and bone-in pieces are pooled; field-boned meat is different work and has its own shop effects. */
export type Pool = 'on the bone' | 'boned';

/** @throws ValidationError `yield.brought` */
export function requireBase({ brought }: Pick<Group, 'brought'>): Base {
  const base = baseOf(brought);
  if (!base) throw new ValidationError('yield.brought', 'group.brought', { brought });
  return base;
}

/** @throws ValidationError `yield.brought` */
export function poolOf(group: Pick<Group, 'brought'>): Pool {
  return requireBase(group) === 'boned' ? 'boned' : 'on the bone';
}
