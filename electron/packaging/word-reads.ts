/** Where a program reads messages: `text.heading` and everything else that is done with an area's `text`. */

/** What the walk reads of a node of a parsed program. */
export type Node = Readonly<Record<string, unknown>> & { type?: string; start?: number; end?: number };

interface Read {
  area: string;
  /** First step of the message's key. */
  head: string;
  /** Of `heading` in `text.heading`, with the dot. */
  start: number;
  end: number;
}

interface Reads {
  reads: Read[];
  /** Areas of which a message is also found another way: by index, through `inLanguage`; or its name is bound again. */
  open: string[];
}

const AREA = /words\/compiled\/(.+)\.ts$/;

/** @param program a parsed module, in JavaScript or TypeScript */
export function wordReads(program: Node): Reads {
  const areas = new Map(areasOf(program));
  const reads: Read[] = [];
  const open = new Set<string>();
  /** Names that stand for no import, as in `other.text` and `{ text: 1 }`, and those whose read is known. */
  const settled = new Set<unknown>();
  walk(program, (node) => {
    if (isSkipped(node)) return false;
    if (node.type === 'MemberExpression' && !node.computed) {
      settled.add(node.property);
      const area = areas.get(nameOf(node.object) ?? '');
      const head = nameOf(node.property);
      if (area !== undefined && head !== undefined) {
        settled.add(node.object);
        reads.push({ area, head, start: (node.object as Node).end ?? 0, end: node.end ?? 0 });
      }
    }
    if (node.type === 'Property' && !node.computed && !node.shorthand) settled.add(node.key);
    const area = areas.get(nameOf(node) ?? '');
    if (area !== undefined && !settled.has(node)) open.add(area);
    return true;
  });
  return { reads, open: [...open] };
}

/** Imports say no more than which area it is, and types are gone in the program that runs. */
const isSkipped = ({ type = '' }: Node): boolean =>
  type === 'ImportDeclaration' || (/^TS/.test(type) && !/^TS(As|NonNull|Satisfies)/.test(type));

/** Names under which a module imports areas, each with its area. */
export function areasOf(program: Node): [string, string][] {
  return nodesIn(program.body).flatMap((node) => {
    if (node.type !== 'ImportDeclaration') return [];
    const area = AREA.exec(String((node.source as Node).value))?.[1];
    if (area === undefined) return [];
    const imports = nodesIn(node.specifiers).filter((one) => nameOf(one.imported) === 'text');
    return imports.map((one): [string, string] => [nameOf(one.local) ?? '', area]);
  });
}

const nameOf = (node: unknown): string | undefined =>
  isNode(node) && node.type === 'Identifier' ? String(node.name) : undefined;

const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null;

const nodesIn = (value: unknown): Node[] => (Array.isArray(value) ? value.filter(isNode) : []);

/** Visits a node and, where `visit` says so, what it contains. */
export function walk(node: Node, visit: (node: Node) => boolean): void {
  if (node.type !== undefined && !visit(node)) return;
  for (const value of Object.values(node)) if (isNode(value)) walk(value, visit);
}
