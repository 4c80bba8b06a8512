import * as v from 'valibot';
import type { DrilldownOrder } from '../../book/sums/season-drilldown.ts';
import { read } from '../session/procedure.ts';
import { filterFields, sumsOf } from '../session/season-filter.ts';
import type { DrilldownReport } from '../contract/contract.ts';

/** Maximum length of the list; a narrower filter shows the rest. */
const MAX_ROWS = 300;

const order = v.picklist(
  [
    'ticket',
    'takeHome',
    'bone',
    'damage',
    'hanging',
    'days',
    'income',
    'unexplained',
  ] satisfies DrilldownOrder[],
  'choice.measure',
);
const bound = v.pipe(
  v.number('number.not-finite'),
  v.minValue(-Number.MAX_VALUE, 'number.not-finite'),
  v.maxValue(Number.MAX_VALUE, 'number.not-finite'),
);

/** The animals behind a figure, a bar or a point. `between` limits their measure. */
export const drilldown = read(
  v.object({
    ...filterFields,
    order: v.optional(order, 'ticket'),
    rising: v.optional(v.boolean(), false),
    between: v.optional(v.tuple([bound, bound])),
  }),
  (session, { order: by, rising, between, ...input }): DrilldownReport => {
    const { total, rows } = session.book.seasonDrilldown.list(sumsOf(session, input), {
      order: by,
      rising,
      most: MAX_ROWS,
      currency: session.settings.currency,
      between: between ?? null,
    });
    return {
      total,
      animals: rows.map(({ species, received_on, ready_on, base, take_home, ...row }) => ({
        ...row,
        species: session.species.of(species).name,
        receivedOn: received_on,
        readyOn: ready_on,
        baseGrams: base,
        takeHomeGrams: take_home,
      })),
    };
  },
);
