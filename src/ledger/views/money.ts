import { WHOSE, type ReportView } from './view.ts';

const STANDS = 'NOT EXISTS (SELECT FROM ledger.bill_void v WHERE v.shop = b.shop AND v.bill_id = b.id)';

/** Money of a bill is what was frozen on it; a price that changed later changes no bill. */
export const moneyByBill: ReportView = {
  name: 'money_by_bill',
  about:
    'One row for each bill that is not voided. Money is in whole minor units (cents) of the bill’s currency: add up one currency at a time.',
  columns: [
    ...WHOSE,
    ['season', 'Season of the animal.'],
    ['bill_id', 'Number of the bill’s row in the shop’s own book.'],
    ['number', 'Number of the bill.'],
    ['animal_id', 'Number of the animal in the shop’s own book.'],
    ['ticket', 'Ticket number of the animal.'],
    ['species', 'Code of the species.'],
    ['billed_on', 'Day of the bill.'],
    ['currency', 'Currency, as three letters of ISO 4217.'],
    ['subtotal_minor', 'Fees before tax, discounts taken off.'],
    ['tax_minor', 'Tax.'],
    ['total_minor', 'Fees with tax.'],
    ['paid_minor', 'Deposits and payments for the animal less refunds, without voided ones.'],
    ['take_home_grams', 'The animal’s take-home; NULL until it is finished.'],
    ['quote', 'Name of the quote that the bill came from; NULL without one.'],
    ['quoted_low_minor', 'Lowest quoted price, with tax; NULL unless quoted in the bill’s currency.'],
    ['quoted_mean_minor', 'Expected quoted price.'],
    ['quoted_high_minor', 'Highest quoted price.'],
    ['within_quote', 'Whether the total is within the quoted prices; NULL without them.'],
  ],
  select: `
    SELECT b.shop, n.name, a.season, b.id, b.number, b.animal_id, a.ticket, a.species, ledger.day(b.billed_on), b.currency,
      b.subtotal_minor, b.tax_minor, b.total_minor, coalesce(p.minor, 0), CASE WHEN w.finished = 1 THEN w.take_home END,
      q.name, q.low, q.mean, q.high, b.total_minor BETWEEN q.low AND q.high
    FROM ledger.bill b JOIN ledger.shop_now n ON n.shop = b.shop
      JOIN ledger.animal a ON a.shop = b.shop AND a.id = b.animal_id
      LEFT JOIN ledger.animal_sum w ON w.shop = b.shop AND w.animal_id = b.animal_id
      LEFT JOIN (SELECT y.shop, y.animal_id, sum(CASE y.kind WHEN 'refund' THEN -y.amount_minor ELSE y.amount_minor END)::bigint AS minor
        FROM ledger.payment y WHERE NOT EXISTS (SELECT FROM ledger.payment_void v WHERE v.shop = y.shop AND v.payment_id = y.id)
        GROUP BY y.shop, y.animal_id) p ON p.shop = b.shop AND p.animal_id = b.animal_id
      LEFT JOIN LATERAL (SELECT z.name, CASE WHEN j.body #>> '{price,currency}' = b.currency THEN ledger.number_at(j.body, '{price,low}') END AS low,
          CASE WHEN j.body #>> '{price,currency}' = b.currency THEN ledger.number_at(j.body, '{price,mean}') END AS mean,
          CASE WHEN j.body #>> '{price,currency}' = b.currency THEN ledger.number_at(j.body, '{price,high}') END AS high
        FROM ledger.quote z CROSS JOIN LATERAL (SELECT ledger.json_of(z.answered) AS body OFFSET 0) j
        WHERE z.shop = b.shop AND z.id = b.quote_id) q ON true
    WHERE ${STANDS}`,
}; // prettier-ignore

export const feeByLine: ReportView = {
  name: 'fee_by_line',
  about: 'One row for each line of a bill that is not voided. Money is in whole minor units (cents), before tax.',
  columns: [
    ...WHOSE,
    ['season', 'Season of the animal.'],
    ['bill_id', 'Number of the bill’s row in the shop’s own book.'],
    ['position', 'Place of the line on the bill, from 0.'],
    ['ticket', 'Ticket number of the animal.'],
    ['species', 'Code of the species.'],
    ['currency', 'Currency, as three letters of ISO 4217.'],
    ['code', 'Code of the line in its price book; adjustment-N for a discount or change.'],
    ['label', 'What the bill says.'],
    ['basis', 'What it charges for.'],
    ['quantity', 'How much of that.'],
    ['unit', 'Unit of the quantity; NULL for a count.'],
    ['amount_minor', 'Amount before tax.'],
    ['tax_minor', 'Tax of the line.'],
  ],
  select: `
    SELECT b.shop, n.name, a.season, b.id, l.position, a.ticket, a.species, b.currency, l.code, l.label, l.basis, l.quantity, l.unit,
      l.amount_minor, l.tax_minor
    FROM ledger.bill_line l JOIN ledger.bill b ON b.shop = l.shop AND b.id = l.bill_id JOIN ledger.shop_now n ON n.shop = b.shop
      JOIN ledger.animal a ON a.shop = b.shop AND a.id = b.animal_id
    WHERE ${STANDS}`,
}; // prettier-ignore
