/** Figures of the smokehouse supplied with the program: limits of cures, standards, heat tables, losses. */
import compositionJson from '../../../resources/composition-rules.json' with { type: 'json' };
import limitsJson from '../../../resources/cure-limits.json' with { type: 'json' };
import heatJson from '../../../resources/heat-tables.json' with { type: 'json' };
import lossJson from '../../../resources/loss-assumptions.json' with { type: 'json' };
import type { CureLimit } from '../../core/curing/limits.ts';
import type { CompositionRule } from '../../core/curing/standards.ts';
import type { CoolingOption, HostFigure, TimeTable } from '../../core/heat/figures.ts';
import type { LossKind } from '../../core/loss/kind.ts';
import { ProblemError } from '../contract/problem.ts';

export const CURE_LIMITS = limitsJson as unknown as readonly CureLimit[];
export const COMPOSITION_RULES = compositionJson as unknown as readonly CompositionRule[];
/** What packing loses has a kind of its own and is no product. */
export const LOSS_KINDS = lossJson as unknown as readonly LossKind[];

interface HeatFigures {
  readonly lethality: readonly TimeTable[];
  readonly hosts: HostFigure;
  readonly cooling: readonly CoolingOption[];
}
const HEAT = heatJson as unknown as HeatFigures;

export const COOLING_OPTIONS = HEAT.cooling;
/** What animals that may carry Trichinella have to reach inside. */
export const HOST_FIGURE = HEAT.hosts;

/** The table of time at temperature that logs are held against. @throws ProblemError `resources.heat` */
export function timeTable(): TimeTable {
  const [table] = HEAT.lethality;
  if (!table) throw new ProblemError('broken', 'resources.heat');
  return table;
}

/** @throws ProblemError `cooling.unknown` */
export function coolingOption(code: string): CoolingOption {
  const found = COOLING_OPTIONS.find((option) => option.code === code);
  if (!found) throw new ProblemError('missing', 'cooling.unknown', { field: 'cooling' });
  return found;
}

/** @throws ProblemError `loss.kind-unknown` */
export function lossKind(code: string): LossKind {
  const found = LOSS_KINDS.find((kind) => kind.code === code);
  if (!found) throw new ProblemError('missing', 'loss.kind-unknown', { field: 'lossKind' });
  return found;
}
