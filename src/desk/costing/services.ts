/** Each service of the shop: cost, price and sensitivity per finished pound. */
import { sensitivity } from '../../core/pricing/costing-sensitivity.ts';
import { breakEvenFee, costOf, marginOf, type Service } from '../../core/pricing/costing.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import type { SeasonFat } from '../../book/sums/season-money.ts';
import { fatSpent } from './fat.ts';
import { SERVICES } from './figures.ts';
import { INCOME_CODES, incomeCodeOf } from './income.ts';
import type { MeasuredService } from './measured.ts';
import { pricesInForce } from '../pricing/prices.ts';
import type { Session } from '../session/session.ts';
import { repricedBills, noCharges } from './repriced-bills.ts';
import { productTest, type BilledAnimal } from './season-bills.ts';
import type { CostFigures, Measured, ServiceAnswer, ServiceCode } from '../contract/contract.ts';

/** Number of sensitivities shown. */
const SHOWN_SWINGS = 4;
/** Figures shown beside the cost, in this order; a service has those that were measured for it. */
const SHOWN: Readonly<Record<ServiceCode, readonly Measured['figure'][]>> = {
  cutting: ['received', 'shrink', 'packedShare'],
  grinding: ['received', 'shrink', 'boughtFatShare', 'fatPerKg'],
  products: ['received', 'shrink', 'boughtFatShare', 'fatPerKg'],
};

/** The shop's figures and measurements as one job of the core. */
export function serviceOf(code: ServiceCode, figures: CostFigures, measured: MeasuredService): Service {
  const { minutesPerAnimal, minutesPerKg, packageGrams } = figures.services[code];
  const packedShare = measured.packedShare.value;
  return {
    code,
    receivedGrams: measured.received.value,
    shrink: measured.shrink.value,
    minutesPerAnimal,
    minutesPerKg,
    wagePerHour: figures.wagePerHour,
    overheadPerHour: figures.overheadPerHour,
    // Cutting packs only part of its output, so a package stands for more meat than it contains.
    gramsPerPackage: packageGrams / (packedShare > 0 ? packedShare : 1),
    packagingPerPackage: packedShare > 0 ? figures.packagingPerPackage : 0,
    boughtFatShare: measured.boughtFatShare.value,
    fatPerKg: measured.fatPerKg.value,
  };
}

export function answerOf(
  session: Session,
  service: Service,
  basis: { figures: CostFigures; measured: MeasuredService; fee: ServiceAnswer['fee'] },
): ServiceAnswer {
  const { unit } = session.settings;
  const cost = costOf(service);
  const perUnit = (minor: number): number => (minor * GRAMS_PER[unit]) / cost.finishedGrams;
  const perLbToUnit = GRAMS_PER[unit] / GRAMS_PER.lb;
  const fee = basis.fee ? basis.fee.service + basis.fee.fat : 0;
  const code = service.code as ServiceCode;
  return {
    code,
    measured: SHOWN[code].map((figure) => basis.measured[figure]),
    receivedGrams: service.receivedGrams,
    finishedGrams: cost.finishedGrams,
    hours: cost.hours,
    packages: cost.packages,
    costPerJob: cost.costPerJob,
    costPerLb: cost.costPerLb,
    costPerKg: cost.costPerKg,
    parts: {
      wages: perUnit(cost.parts.wages),
      overhead: perUnit(cost.parts.overhead),
      packaging: perUnit(cost.parts.packaging),
      fat: perUnit(cost.parts.fat),
    },
    cost: perUnit(cost.costPerJob),
    fee: basis.fee,
    margin: fee > 0 ? marginOf(service, fee, unit).share : null,
    breakEven: breakEvenFee(service, 0, unit),
    wanted: breakEvenFee(service, basis.figures.wantedMargin, unit),
    finishedShare: cost.finishedGrams / service.receivedGrams,
    swings: sensitivity(service)
      .filter(({ swing }) => swing > 0)
      .slice(0, SHOWN_SWINGS)
      .map(({ input, lowCostPerLb, highCostPerLb }) => ({
        input,
        low: lowCostPerLb * perLbToUnit,
        high: highCostPerLb * perLbToUnit,
      })),
  };
}

/**
 * The current prices' revenue per finished unit of each service, on the billed animals; fat charges are divided by
 * the fat that each service used. Null for a service without such an animal, or without prices.
 */
export function feesOf(
  session: Session,
  { season, bills, used }: { season: number; bills: readonly BilledAnimal[]; used: readonly SeasonFat[] },
  services: Readonly<Record<ServiceCode, Service>>,
): Record<ServiceCode, ServiceAnswer['fee']> {
  const none = { cutting: null, grinding: null, products: null };
  const prices = pricesInForce(session);
  if (!prices || bills.length === 0) return none;
  const { id, lines } = prices;
  const taken = noCharges();
  const grams = { cutting: 0, grinding: 0, products: 0 };
  const count = { cutting: 0, grinding: 0, products: 0 };
  // Bills made with these prices contain their own revenue.
  const { currency } = session.settings;
  const own = session.cached('money', season, `taken by ${id} in ${currency}`, () =>
    session.book.seasonMoney.takenBy(season, currency, id),
  );
  for (const { basis, amount_minor } of own) taken[incomeCodeOf(basis)] += amount_minor;
  const seenBy = repricedBills(session, prices);
  for (const bill of bills) {
    const seen = seenBy(bill.amounts);
    if (bill.priceBookId !== id) for (const code of INCOME_CODES) taken[code] += seen.charged()[code];
    const made = {
      cutting: seen.amounts.hangingGrams * (1 - services.cutting.shrink),
      grinding: seen.amounts.groundGrams,
      products: seen.productGrams,
    };
    for (const code of SERVICES) {
      grams[code] += made[code];
      if (made[code] > 0) count[code]++;
    }
  }
  const all = fatSpent(used).usedGrams;
  const isProduct = productTest(session, lines);
  const inProducts = fatSpent(used.filter(({ product }) => isProduct(product))).usedGrams;
  const fatOf = { cutting: 0, grinding: all - inProducts, products: inProducts };
  const perUnit = (minor: number, code: ServiceCode): number =>
    (minor * GRAMS_PER[session.settings.unit]) / grams[code];
  const feeOf = (code: ServiceCode): ServiceAnswer['fee'] =>
    grams[code] > 0
      ? {
          service: perUnit(taken[code], code),
          fat: all > 0 ? perUnit((taken.fat * fatOf[code]) / all, code) : 0,
          bills: count[code],
        }
      : null;
  return { cutting: feeOf('cutting'), grinding: feeOf('grinding'), products: feeOf('products') };
}
