import type { BlendPlan, PlanPart } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/grinder.ts';
import type { Format } from '../texts/format.ts';

/** The weights of an answer: the plan, or the nearest possible one. */
interface Batch {
  parts: PlanPart[];
  batchGrams: number;
  fat: number;
}

/** The batch to weigh in: the plan itself, or the nearest possible batch. */
export function batchOf(plan: BlendPlan): Batch {
  return plan.kind === 'not enough fat' || plan.kind === 'out of reach' ? plan.nearest : plan;
}

/** What there is to say beside the sum and the bar: that no fat is needed, or the obstacle and its remedy. */
export function planWords(plan: BlendPlan, format: Format): string {
  switch (plan.kind) {
    case 'plan':
      return '';
    case 'lean enough':
      return leanEnough(plan, format);
    case 'not enough fat':
      if (plan.target === null)
        return text.notEnoughForRecipe({
          need: format.mass(plan.needGrams),
          missing: format.mass(plan.missingGrams),
        });
      return text.notEnough({
        target: format.share(plan.target),
        need: format.mass(plan.needGrams),
        have: plan.haveGrams > 0 ? format.mass(plan.haveGrams) : null,
        missing: format.mass(plan.missingGrams),
        nearest: format.share(plan.nearest.fat),
      });
    case 'out of reach':
      return text.outOfReach({
        target: format.share(plan.target),
        richest: format.share(plan.richest),
        nearest: format.share(plan.nearest.fat),
      });
  }
}

function leanEnough(plan: Extract<BlendPlan, { kind: 'lean enough' }>, format: Format): string {
  const above = format.number((plan.fat - plan.target) * 100, 1);
  if (above === format.number(0, 1)) return text.atTarget({ fat: format.share(plan.fat) });
  return [
    text.aboveTarget({ fat: format.share(plan.fat), points: above, target: format.share(plan.target) }),
    plan.leanToAddGrams === null ? text.noLeaner : text.leaner({ mass: format.mass(plan.leanToAddGrams) }),
  ].join(' ');
}

/**
 * A target that the nearest batch is certain to reach: its fat content, truncated to a tenth of a percent. Null
 * without a nearest batch.
 */
export function reachableTarget(plan: BlendPlan): number | null {
  if ((plan.kind !== 'not enough fat' && plan.kind !== 'out of reach') || plan.target === null) return null;
  const target = Math.floor(plan.nearest.fat * 1000 + 1e-6) / 1000;
  return target > 0 && target < plan.target ? target : null;
}
