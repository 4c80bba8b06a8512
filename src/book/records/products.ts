import type { Db } from '../file/db.ts';
import type { ProductKind } from '../../trade/product.ts';

interface ProductRow {
  code: string;
  name: string;
  kind: ProductKind;
  /** JSON of the desk: usual fat, package, other ingredients; `null` for a supplied product that is only archived. */
  body: string;
  active: 0 | 1;
}

/** The shop's own products, and supplied ones that it changed or archived. */
export function productRecords(db: Db) {
  const all = db.prepare<[], ProductRow>('SELECT code, name, kind, body, active FROM product ORDER BY name');
  const put = db.prepare(
    `INSERT INTO product (code, name, kind, body, active) VALUES (@code, @name, @kind, @body, @active)
     ON CONFLICT (code) DO UPDATE SET name = excluded.name, kind = excluded.kind, body = excluded.body, active = excluded.active`,
  );
  return {
    all: () => all.all(),
    put: (product: Omit<ProductRow, 'body' | 'active'> & { body: object | null; active: boolean }): void =>
      void put.run({
        ...product,
        body: JSON.stringify(product.body),
        active: product.active ? 1 : 0,
      }),
  };
}
