/** An animal as a station sees it. */
import type { AnimalPage, WeighingRow } from '../../../src/bridge/contract.ts';

/** A weight of it; by default on the hook. */
export const row = (more: Partial<WeighingRow>): WeighingRow =>
  ({
    id: 1, stage: 'hanging', part: 'carcass', primal: null, product: null, place: null, typed: '80', unit: 'lb', grams: 36_287,
    tareTyped: null, source: 'typed', at: '2026-11-24T15:00:00Z', by: 'MK', voided: null, ...more,
  }) as WeighingRow; // prettier-ignore
/** A deer on the table with a hanging weight. */
export const DEER = {
  id: 12, ticket: '26-0012', stage: 'cutting', brought: 'skinned', detail: 'detailed', hold: null, none: [], parts: [], sex: 'male',
  age: 'adult', days: 3, promisedOn: null, where: null, primals: [], packages: [], weighings: [row({})], waitsFor: [],
  hunter: { name: 'Ana Ruiz' }, balance: { suspects: [], doubtful: false, overGrams: 0 }, ordersStatus: 'ordered',
  species: { name: 'White-tailed deer', code: 'whitetail', words: { male: 'buck', female: 'doe', young: 'fawn' }, primals: [], cautions: [] },
  instructions: { cutsShare: 0.4, primals: [], fat: 'none', targetFat: null, grindProduct: 'Ground', pattyGrams: null, alsoGround: [],
    packageGrams: 453.59237, pricedExtras: {}, extras: [], note: 'Bones for the dog' },
} as unknown as AnimalPage; // prettier-ignore
