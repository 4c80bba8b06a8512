/** The batch sheet of a made batch: the recipe scaled to the meat that was weighed. */
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { casingGrams, casingsFor, type Casing } from '../../core/curing/casing.ts';
import { parseReading, readingGrams } from '../../core/values/reading.ts';
import { toGrams } from '../../core/values/units.ts';
import type { IngredientCard, MadeSheet, RecipeBody, SheetAmount } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { forecastOf } from '../recipes/output.ts';
import { pantryOf } from '../recipes/library.ts';
import { fatShares, onParts, type MeatIn } from './meat.ts';
import { reckon } from '../recipes/reckon.ts';

/** What a sheet is reckoned from. */
export interface SheetOf {
  readonly batchId: number;
  /** What was weighed of the grind. */
  readonly standing: readonly WeighingRecord[];
  readonly recipeId: number;
  readonly versionId: number;
  readonly body: RecipeBody;
  readonly cards: readonly IngredientCard[];
  readonly meat: readonly MeatIn[];
  readonly portionTyped: string;
  readonly smallStepGrams: number;
}

/** Nothing is weighed yet. @throws those of `reckon` */
export function sheetOf(session: Session, of: SheetOf): MadeSheet {
  const { body } = of;
  const pantry = pantryOf(of.cards);
  const parts = onParts(body, of.meat);
  const { unit, step } = session.settings;
  const scales = { smallStep: of.smallStepGrams, largeStep: toGrams(step, unit) };
  const found = reckon(body, parts, pantry, scales);
  const { scaled } = found;
  const raw = scaled.greenGrams + found.takenGrams;
  const forecast = forecastOf(session, of.recipeId, body.lossKind);
  const brine = found.saltGrams + found.waterGrams;
  return {
    versionId: of.versionId,
    blockGrams: scaled.greenGrams,
    portionTyped: of.portionTyped,
    smallStepGrams: scales.smallStep,
    largeStepGrams: scales.largeStep,
    meat: parts.map(({ kind, name, grams, share }) => ({
      kind,
      name,
      grams,
      share: grams / scaled.greenGrams,
      recipeShare: body.meat.some((part) => part.kind === kind) ? share : null,
    })),
    amounts: scaled.additions.map(({ ingredient, role, exactGrams, grams, tooFine }, i): SheetAmount => {
      const line = body.additions[i];
      return {
        ingredientId: Number(ingredient),
        name: pantry.library[ingredient]?.name ?? '',
        role,
        into: line?.into ?? 'meat',
        typed: line?.typed ?? '',
        unit: line?.unit ?? 'g',
        per: line?.per ?? 'kg',
        exactGrams,
        grams,
        stepGrams: role === 'water' ? scales.largeStep : scales.smallStep,
        tooFine,
        weighedGrams: 0,
        done: false,
        lastLot: '',
      };
    }),
    totalGrams: raw,
    method: body.method,
    pickUp: body.pickUp,
    ppm: found.ppm,
    findings: found.findings,
    mayStart: found.mayStart,
    salt: found.saltGrams / raw,
    water: found.waterGrams / raw,
    brine: brine > 0 ? found.saltGrams / brine : null,
    fat: fatShares(session, of, scaled.greenGrams, raw),
    casings: body.casing ? casings(session, body.casing, raw) : null,
    expected: {
      grams: { low: raw * forecast.low, middle: raw * forecast.middle, high: raw * forecast.high },
      forecast,
    },
  };
}

function casings(
  session: Session,
  { name, diameterMm, filledMm, holdsTyped }: NonNullable<RecipeBody['casing']>,
  raw: number,
): MadeSheet['casings'] {
  const casing: Casing = {
    name,
    diameterMm,
    ...(filledMm === null ? {} : { filledMm }),
    ...(holdsTyped === ''
      ? {}
      : { holdsGrams: readingGrams(parseReading(holdsTyped, session.settings.unit)) }),
  };
  return { name, pieces: casingsFor(raw, casing), gramsEach: casingGrams(casing) };
}
