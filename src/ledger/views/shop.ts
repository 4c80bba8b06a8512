import type { ReportView } from './view.ts';

/** Other views keep to these shops: an older branch of a book has the same animals once more. */
export const shopNow: ReportView = {
  name: 'shop_now',
  about: 'The shops as they are today: one row for each book, of its newest branch.',
  columns: [
    ['shop', 'Number of the shop in this ledger. A restored book begins a new one.'],
    ['name', 'The name that the shop gave itself. Two shops may have the same.'],
    ['book', 'Identity of its book.'],
    ['branch', 'Which continuation of the book this is; 1 is the first.'],
    ['whole', 'False while more of the book is on its way: part of a bill may be missing.'],
    ['sent_at', 'When it last sent anything.'],
  ],
  select: 'SELECT shop, name, book, branch, whole, sent_at FROM ledger.shop WHERE superseded_by IS NULL',
};
