/**
 * Holds the cures of a batch against the limits. It compares with the figures entered and judges nothing else: local rules come first,
 * and a licensed processing authority decides on a process.
 */
import { requireFinite, ValidationError } from '../values/validation-error.ts';
import { exceeds, hasStop, type Finding } from './finding.ts';
import { ingoingPpm, type Application } from './ingoing.ts';
import { classOf, isBacon, type Agent, type CureClass, type CuredProduct, type CureLimit } from './limits.ts';
import { AGENTS, agentGramsIn, asSodium, strengthFindings, type CureMix } from './mix.ts';

export interface CureCheck {
  /** As the recipe states it; compared with what product and method make of it. */
  readonly class: CureClass;
  readonly product: CuredProduct;
  readonly application: Application;
  readonly cures: readonly { readonly mix: CureMix; readonly grams: number }[];
  /** Step of the small scale: a shortfall of one step is no shortfall, since a cure is never rounded up. 0 if left out. */
  readonly stepGrams?: number;
}

export type IngoingPpm = Readonly<Record<Agent, number>>;

export interface CureAnswer {
  /** Null where a strength is missing or impossible. Nitrite of bacon is counted as sodium nitrite. */
  readonly ppm: IngoingPpm | null;
  readonly findings: readonly Finding[];
  /** False while there is a `stop`: the amount, the class or the strength has to change. */
  readonly mayStart: boolean;
}

/** More kinds of cure in one batch than anybody uses. */
const MAX_CURES = 20;

/**
 * Ingoing ppm and every finding, in the order of the limits.
 * @throws ValidationError `cures.too-many`, `id.duplicate`, and those of `ingoingPpm` and `agentGramsIn`
 */
export function checkCure(check: CureCheck, limits: readonly CureLimit[]): CureAnswer {
  const { cures, product } = check;
  if (cures.length > MAX_CURES) throw new ValidationError('cures.too-many', 'cures', { most: MAX_CURES });
  if (new Set(cures.map(({ mix }) => mix.id)).size < cures.length)
    throw new ValidationError('id.duplicate', 'cures');
  const strengths = cures.flatMap(({ mix }) => strengthFindings(mix));
  if (hasStop(strengths)) return { ppm: null, findings: strengths, mayStart: false };
  const ppm = ingoingOf(check);
  const findings = [
    ...classFindings(check),
    ...limits.flatMap((limit) => limitFindings(check, ppm, limit)),
    ...useFindings(product, ppm),
  ];
  return { ppm, findings, mayStart: !hasStop(findings) };
}

/** Ingoing ppm of each agent. @throws ValidationError those of `ingoingPpm` and `agentGramsIn` */
export function ingoingOf({
  class: cureClass,
  application,
  cures,
}: Pick<CureCheck, 'class' | 'application' | 'cures'>): IngoingPpm {
  const sum = (agent: Agent): number =>
    cures.reduce((total, { mix, grams }) => {
      const pure = agentGramsIn(mix, agent, grams);
      // Outside bacon the weight limit is the same for both salts (handbook, second-hand).
      const sodium = agent === 'nitrite' && mix.nitriteAs === 'potassium' && isBacon(cureClass);
      return total + (sodium ? asSodium(pure) : pure);
    }, 0);
  const [nitrite, nitrate, accelerator] = AGENTS.map((agent) => ingoingPpm(sum(agent), application));
  return { nitrite: nitrite ?? 0, nitrate: nitrate ?? 0, accelerator: accelerator ?? 0 };
}

function classFindings({ class: stated, product, application, cures }: CureCheck): Finding[] {
  const derived = classOf(product, application);
  if (derived === null)
    return [{ code: 'cure.no-class', weight: 'stop', with: { method: application.method } }];
  const wrong: Finding[] =
    derived === stated ? [] : [{ code: 'cure.wrong-class', weight: 'stop', with: { stated, derived } }];
  const packets = cures.flatMap(({ mix }): Finding[] =>
    mix.for && !mix.for.includes(derived)
      ? [{ code: 'cure.not-for-this', weight: 'stop', with: { cure: mix.id, class: derived } }]
      : [],
  );
  return [...wrong, ...packets];
}

function limitFindings(check: CureCheck, ppm: IngoingPpm, limit: CureLimit): Finding[] {
  const { product, application, cures } = check;
  // A wrong class in the recipe must not choose the limit: the stricter of both classes counts.
  const classes = [check.class, classOf(product, application)];
  if (!classes.some((one) => one !== null && limit.classes.includes(one))) return [];
  const got = ppm[limit.agent];
  const told = { agent: limit.agent, ppm: got, limit: limit.ppm };
  const found = (code: string, weight: Finding['weight']): Finding[] => [
    { code, weight, with: told, rule: limit.code },
  ];
  const above = exceeds(got, limit.ppm);
  const step = check.stepGrams ?? 0;
  if (requireFinite(step, 'stepGrams') < 0) throw new ValidationError('step.not-positive', 'stepGrams');
  const stepPpm = ingoingPpm(
    cures.reduce((sum, { mix }) => sum + agentGramsIn(mix, limit.agent, step), 0),
    application,
  );
  // Without nitrite and nitrate there is no cure, and its minima do not apply.
  const cured = ppm.nitrite > 0 || ppm.nitrate > 0;
  const below = cured && exceeds(limit.ppm, got + stepPpm);
  switch (limit.kind) {
    case 'ceiling':
      if (!above) return [];
      return limit.ppm === 0
        ? found('nitrate.in-bacon', 'stop')
        : found('cure.above-limit', limit.grade === 'assumption' ? 'warn' : 'stop');
    case 'level':
      if (above) return found('cure.above-limit', 'stop');
      return below ? found('cure.below-level', 'warn') : [];
    case 'floor':
      if (limit.code === 'nitrite-refrigerated' && product.keep !== 'refrigerated') return [];
      return below ? found('cure.below-minimum', 'warn') : [];
    case 'finished':
      return above ? found('cure.finished-not-shown', 'note') : [];
  }
}

function useFindings({ cookedSoon, lowHeat }: CuredProduct, ppm: IngoingPpm): Finding[] {
  const findings: Finding[] = [];
  if (cookedSoon && ppm.nitrate > 0)
    findings.push({ code: 'nitrate.cooked-soon', weight: 'stop', with: { ppm: ppm.nitrate } });
  if (lowHeat && ppm.nitrite === 0)
    findings.push({ code: 'cure.none-at-low-heat', weight: 'warn', with: {} });
  return findings;
}
