import type { AnimalPage, DropOff } from '../../bridge/contract.ts';
import type { Fact } from '../parts/index.ts';
import { kindName } from '../belongings/belonging-words.ts';
import { text as belongingText } from '../../words/compiled/window/belongings.ts';
import { text as shareText } from '../../words/compiled/window/shares.ts';
import { stageSaid } from '../texts/as-typed.ts';
import { methodName } from '../texts/payment-methods.ts';
import { sexWord } from '../texts/codes.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text } from '../../words/compiled/window/receipt.ts';
import { inCurrency, type Format } from '../texts/format.ts';
import { piecesText, withPieces } from '../texts/pieces.ts';

/** Hunter, animal, date and weights; unknown values are empty. */
export function dropOffFacts(page: AnimalPage, format: Format): Fact[] {
  const { receivedGrams, hangingGrams } = page.weights;
  const pieces = piecesText(page.parts, page.species.primals);
  return [
    [text.hunter, [page.hunter.name, page.hunter.address].filter(Boolean).join(', ')],
    [text.phone, page.hunter.phone],
    [text.deliverer, page.deliverer.name],
    [text.animal, `${page.species.name}, ${sexWord(page.species.words, page.sex, page.age)}`],
    [text.brought, withPieces(words.brought[page.brought], pieces)],
    [
      shareText.title,
      page.sharers.map(({ name, share }) => shareText.line({ name, share: format.share(share) })).join(', '),
    ],
    [
      belongingText.title,
      page.belongings.map(({ kind, tag }) => [kindName(kind), tag].filter(Boolean).join(' ')).join(', '),
    ],
    [text.tag, page.tag],
    [text.huntingLicense, page.licence],
    [text.received, format.longDay(page.receivedOn)],
    [
      text.weight,
      receivedGrams === null ? '' : (stageSaid(page, 'received', format.unit) ?? format.mass(receivedGrams)),
    ],
    [
      text.hanging,
      hangingGrams === null ? '' : (stageSaid(page, 'hanging', format.unit) ?? format.mass(hangingGrams)),
    ],
    [text.promised, page.promisedOn ? format.longDay(page.promisedOn) : ''],
  ];
}

/** The expected price, and each deposit or payment with its method. */
export function moneyFacts({ quote, payments, currency }: DropOff, format: Format): Fact[] {
  const paid = payments.map(({ kind, amountMinor, method, reference, paidOn }): string =>
    text.paidBy({
      amount: format.money(kind === 'refund' ? -amountMinor : amountMinor, currency),
      method: methodName(method),
      reference,
      day: format.day(paidOn),
    }),
  );
  return [
    [
      text.expected,
      quote
        ? text.expectedOf({
            range: inCurrency(format, quote.currency).moneyRange(quote.lowMinor, quote.highMinor),
            quote: quote.name,
          })
        : text.notQuoted,
    ],
    [text.money, paid.length > 0 ? paid.join('; ') : text.noDeposit],
  ];
}
