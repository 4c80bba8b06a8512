import type { PlanPart } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/grinder.ts';

/** The name of a part of a plan in the window's language: trim goes by its ticket, fat by its name. */
export function partLabel({ kind, ticket, label }: Pick<PlanPart, 'kind' | 'ticket' | 'label'>): string {
  return kind === 'trim' && ticket ? text.trimOfOne({ ticket }) : label;
}
