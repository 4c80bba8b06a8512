/** What an input schema lets through at most, found by walking it. */
import type * as v from 'valibot';

/** Where something stands in an input: names of fields, and `*` for any item of a list. */
export type Path = readonly string[];

export interface Bounded {
  path: Path;
  kind: 'list' | 'text';
  /** Items, or UTF-16 units; Infinity where there is no most. */
  most: number;
}

export interface Bounds {
  /** The longest list, also of a record's entries. */
  list: number;
  text: number;
  all: readonly Bounded[];
  /** Paths of lists, texts and numbers without a most. */
  unbounded: readonly string[];
}

/** Valibot's objects as this walk reads them; their own types differ for each kind of schema. */
interface Node {
  kind: string;
  type: string;
  pipe?: readonly Node[];
  entries?: Readonly<Record<string, Node>>;
  wrapped?: Node;
  item?: Node;
  items?: readonly Node[];
  key?: Node;
  value?: Node;
  options?: readonly (Node | string)[];
  requirement?: unknown;
}

const MAX_OF: Readonly<Record<string, 'list' | 'text' | 'number'>> = {
  array: 'list',
  record: 'list',
  string: 'text',
  number: 'number',
};
/** Nothing in them grows with what a caller sends. */
const CLOSED = ['boolean', 'picklist', 'literal', 'null'];

/** @throws Error for a kind of schema that this walk does not know: then it would overlook what is in it */
export function boundsOf(schema: v.GenericSchema): Bounds {
  const all: Bounded[] = [];
  const unbounded: string[] = [];
  const visit = (node: Node, path: Path, outer: readonly Node[] = []): void => {
    const [root = node, ...rest] = node.pipe ?? [];
    if (node.pipe && root !== node) return visit(root.pipe ? root : { ...root }, path, [...rest, ...outer]);
    const limit = MAX_OF[node.type];
    if (limit) {
      const most = outer.flatMap(({ type, requirement }) =>
        ['max_length', 'length', 'max_entries', 'max_value'].includes(type) ? [Number(requirement)] : [],
      );
      const least = outer.some(({ type }) => type === 'min_value');
      if (most.length === 0 || (limit === 'number' && !least)) unbounded.push(`${limit} ${path.join('.')}`);
      if (limit !== 'number') all.push({ path, kind: limit, most: Math.min(...most) });
    }
    const inside: [Node | undefined, string][] = [
      ...Object.entries(node.entries ?? {}).map(([name, one]): [Node, string] => [one, name]),
      ...(node.items ?? []).map((one, i): [Node, string] => [one, String(i)]),
      [node.item, '*'],
      [node.key, 'key'],
      [node.value, '*'],
    ];
    for (const [one, name] of inside) if (one) visit(one, [...path, name]);
    if (node.wrapped) visit(node.wrapped, path, outer);
    if (node.type === 'union' || node.type === 'variant')
      for (const option of node.options ?? []) if (typeof option !== 'string') visit(option, path, outer);
    const known =
      limit ??
      (node.entries || node.items || node.wrapped || node.type === 'union' || CLOSED.includes(node.type));
    if (!known) throw new Error(`What does ${node.type} let through, at ${path.join('.')}?`);
  };
  visit(schema as unknown as Node, []);
  const longest = (kind: Bounded['kind']): number =>
    Math.max(0, ...all.filter((one) => one.kind === kind).map(({ most }) => most));
  return { list: longest('list'), text: longest('text'), all, unbounded };
}
