/** Leaves the names of messages out of the window's build: `text.dayOrderHint` becomes `text[12]`, in the catalogue too. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseSync, type Plugin } from 'vite';
import { parse as parseComponent } from 'vue/compiler-sfc';
import { areasOf, walk, wordReads, type Node } from './word-reads.ts';

const COMPILED = /words[/\\]compiled[/\\](?:languages[/\\][\w-]+|(.+))\.ts$/;

/** The number of each first step of a key, by area. */
type Numbers = ReadonlyMap<string, ReadonlyMap<string, number>>;

/**
 * Only for areas of which every message is read by its name. A message that is looked up while the program runs, such as
 * that of a problem's code, keeps its name.
 * @param root the project's folder
 */
export function shortWords(root: string): Plugin {
  let numbers: Numbers = new Map();
  return {
    name: 'short-words',
    apply: (_, { command, mode }) => command === 'build' && mode !== 'development',
    buildStart() {
      numbers = numbersOf(root);
    },
    transform: {
      filter: { code: /words\/compiled\/|\barea\(|\bwords = / },
      handler(code, id) {
        const program = this.parse(code) as unknown as Node;
        const compiled = COMPILED.exec(id);
        if (compiled)
          return edited(code, catalogueEdits(code, program, compiled[1]?.replaceAll('\\', '/'), numbers));
        const { reads, open } = wordReads(program);
        for (const area of open)
          if (numbers.has(area)) this.error(`${id} reads ${area} in a way that shortWords did not see.`);
        const edits = reads.flatMap(({ area, head, start, end }): Edit[] => {
          const number = numbers.get(area)?.get(head);
          return number === undefined ? [] : [{ start, end, text: `[${number}]` }];
        });
        return edited(code, edits);
      },
    },
  };
}

interface Edit {
  start: number;
  end: number;
  text: string;
}

function edited(code: string, edits: Edit[]): { code: string; map: null } | null {
  if (edits.length === 0) return null;
  const parts: string[] = [];
  let from = 0;
  for (const { start, end, text } of edits.toSorted((a, b) => a.start - b.start)) {
    parts.push(code.slice(from, start), text);
    from = end;
  }
  return { code: parts.join('') + code.slice(from), map: null };
}

/** The messages of one area, or of all areas in another language, by their numbers. */
function catalogueEdits(code: string, program: Node, area: string | undefined, numbers: Numbers): Edit[] {
  const edits: Edit[] = [];
  const shorten = (messages: Node, of: string): void => {
    const known = numbers.get(of);
    const { start = 0, end = 0 } = messages;
    if (known) edits.push({ start, end, text: numbered(code, messages, known) });
  };
  walk(program, (node) => {
    if (node.type !== 'ObjectExpression') return true;
    if (area !== undefined) shorten(node, area);
    else for (const one of node.properties as Node[]) shorten(one.value as Node, keyOf(one));
    return false;
  });
  return edits;
}

/** Messages without a group are a list while none is missing: they need no keys at all. */
function numbered(code: string, messages: Node, numbers: ReadonlyMap<string, number>): string {
  const list: string[] = [];
  const rest: string[] = [];
  for (const one of messages.properties as Node[]) {
    const [head = '', ...steps] = keyOf(one).split('.');
    const number = numbers.get(head) ?? head;
    const message = codeOf(code, one.value as Node);
    if (number === list.length && steps.length === 0) list.push(message);
    else rest.push(`${JSON.stringify([number, ...steps].join('.'))}: ${message}`);
  }
  return `{ ...[${list.join(', ')}], ${rest.join(', ')} }`;
}

const codeOf = (code: string, { start = 0, end = 0 }: Node): string => code.slice(start, end);

const keyOf = ({ key }: Node): string => String((key as Node).value ?? (key as Node).name);

/** Of the areas of which every message is read by its name. */
function numbersOf(root: string): Numbers {
  const read = new Set<string>();
  const open = new Set<string>();
  for (const file of globSync('src/**/*.{ts,vue}', { cwd: root })) {
    const text = COMPILED.test(file) ? '' : readFileSync(join(root, file), 'utf8');
    if (!text.includes('words/compiled/')) continue;
    const { script, template } = file.endsWith('.vue') ? partsOf(text) : { script: text, template: '' };
    const program = parseSync(file.replace(/vue$/, 'ts'), script).program as unknown as Node;
    for (const area of wordReads(program).open) open.add(area);
    for (const [name, area] of areasOf(program)) {
      read.add(area);
      if (standsAlone(name).test(template)) open.add(area);
    }
  }
  const closed = [...read].filter((area) => !open.has(area));
  return new Map(closed.map((area) => [area, headsOf(root, area)]));
}

function partsOf(component: string): { script: string; template: string } {
  const { script, scriptSetup, template } = parseComponent(component, { sourceMap: false }).descriptor;
  return {
    script: `${script?.content ?? ''}\n${scriptSetup?.content ?? ''}`,
    template: template?.content ?? '',
  };
}

/** The name by itself in an expression of a template: not before a message's name, and no name of an attribute or element. */
const standsAlone = (name: string): RegExp =>
  new RegExp(
    `(?<![\\w$.'"\`<:#@/-])${name}(?![\\w$'"\`>-]|\\s*(?:\\.\\s*\\w|=|:))|:[\\w-]+="${name}"|[(["]${name}\\[`,
  );

/** The first steps of an area's keys by number: single messages first, then groups. */
function headsOf(root: string, area: string): ReadonlyMap<string, number> {
  const code = readFileSync(join(root, `src/words/compiled/${area}.ts`), 'utf8');
  const keys: string[] = [];
  walk(parseSync('area.ts', code).program as unknown as Node, (node) => {
    if (node.type !== 'ObjectExpression') return true;
    keys.push(...(node.properties as Node[]).map(keyOf));
    return false;
  });
  const single = keys.filter((key) => !key.includes('.'));
  const groups = keys.filter((key) => key.includes('.')).map((key) => key.split('.', 1)[0] ?? '');
  return new Map([...new Set([...single, ...groups])].map((head, i) => [head, i]));
}
