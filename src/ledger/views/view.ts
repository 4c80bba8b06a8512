/** A view of the ledger for people's own tools: its columns are what a stranger reads first, so each says its unit and meaning. */
export interface ReportView {
  name: string;
  /** What a row is. */
  about: string;
  /** Name and meaning of each column, in the order of `select`. */
  columns: readonly (readonly [name: string, about: string])[];
  /** The query, with `FROM` and all. */
  select: string;
}

/** Columns that every view begins with: whose row it is. */
export const WHOSE = [
  ['shop', 'Number of the shop in this ledger.'],
  ['shop_name', 'The name that the shop gave itself. Two shops may have the same.'],
] as const;

/** SQL that makes a view or renews it, with its comments. Rows of other shops stay hidden from a shop that asks. */
export function viewSql({ name, about, columns, select }: ReportView): string {
  const comments = columns.map(
    ([column, meaning]) => `COMMENT ON COLUMN ledger.${name}.${column} IS ${quotedText(meaning)}`,
  );
  return [
    `CREATE OR REPLACE VIEW ledger.${name} (${columns.map(([column]) => column).join(', ')})
      WITH (security_invoker = true) AS ${select}`,
    `COMMENT ON VIEW ledger.${name} IS ${quotedText(about)}`,
    ...comments,
  ].join(';\n');
}

const quotedText = (text: string): string => `'${text.replaceAll("'", "''")}'`;
