/** Products of the smokehouse in the record book: whose meat is in them, how they were cured, what their logs say of the heat. */
import type { MadeRow } from '../../book/records/smokehouse/made.ts';
import type { HeatAnswer, MadeOwner, MadeProduct, Proof } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { startOf } from '../smokehouse/made-batch.ts';
import { madeLine } from '../smokehouse/made-line.ts';
import { madeOwners } from '../smokehouse/made-owners.ts';
import { ofWeighed, unweighedCures, weighedGrams } from '../smokehouse/weighed.ts';

/** A product with all of its owners. */
export interface PackedProduct extends Omit<MadeProduct, 'grams' | 'packages' | 'others'> {
  owners: MadeOwner[];
}

/** From the worst on. */
const WORST: readonly HeatAnswer[] = ['not-met', 'not-proven', 'meets-figures'];

/** What was packed of a grind as products of the smokehouse. */
export function packedProducts(session: Session, batchId: number): PackedProduct[] {
  return session.book.made.ofBatch(batchId).flatMap((made) => {
    const { name, product, proof, packages } = madeLine(session, made);
    if (packages === 0) return [];
    return [
      {
        name,
        product,
        nitritePpm: nitriteOf(session, made),
        heat: WORST.find((answer) => proof.cook === answer || proof.cooling === answer) ?? 'not-needed',
        decided: decidedLast(session, made, proof),
        owners: madeOwners(session, made),
      },
    ];
  });
}

/** The animal's part of each product that has its meat. */
export function productsOf(packed: readonly PackedProduct[], animalId: number): MadeProduct[] {
  return packed.flatMap(({ owners, ...product }) => {
    const inIt = owners.filter(({ meatGrams }) => meatGrams > 0);
    const own = inIt.find((one) => one.animalId === animalId);
    if (!own) return [];
    const others = inIt.filter((one) => one !== own).map(({ ticket }) => ticket);
    return [{ ...product, grams: own.packedGrams, packages: own.packages, others }];
  });
}

/** Ingoing nitrite of what was weighed; null without a cure, or where one was not weighed. */
function nitriteOf(session: Session, { id }: MadeRow): number | null {
  const started = startOf(session, id);
  const rows = session.book.madeWeights.weighed(id);
  if (!started || unweighedCures(started, rows).length > 0) return null;
  return ofWeighed(started, weighedGrams(rows)).ppm?.nitrite || null;
}

function decidedLast(session: Session, { id }: MadeRow, { loads }: Proof): MadeProduct['decided'] {
  const last = loads.at(-1);
  const decisions = [
    ...(last ? session.book.loadLogs.decidedOfLoad(last.id) : []),
    ...session.book.loadLogs.decidedOfMade(id),
  ].filter(({ void_reason: voided }) => voided === null);
  return decisions.toSorted((a, b) => a.id - b.id).at(-1)?.decided ?? null;
}
