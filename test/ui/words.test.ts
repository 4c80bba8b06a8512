/**
 * All texts of the window are in `src/ui/texts`, so that they can be read, edited and translated in one place. Lint
 * finds literal text in templates; this test finds it in code. The samples are for developers.
 */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { NodeTypes, parse, type TemplateChildNode } from '@vue/compiler-dom';
import ts from 'typescript';
import { parse as parseFile } from 'vue/compiler-sfc';

const UI = join(import.meta.dirname, '../../src/ui');
const SAID = ['aria-label', 'placeholder', 'title', 'label', 'hint', 'text', 'caption', 'alt', 'save-label'];
/** Words rather than signs and units: two consecutive letters that are no unit. */
const isWords = (text: string): boolean => /\p{L}{2}/u.test(text.replace(/\b(lb|kg|oz|Ctrl|Gambrel)\b/g, ''));

/** Expressions in a template. */
function expressionsIn(nodes: readonly TemplateChildNode[]): string[] {
  return nodes.flatMap((node): string[] => {
    if (node.type === NodeTypes.INTERPOLATION) return [node.content.loc.source];
    if (node.type !== NodeTypes.ELEMENT) return [];
    const bound = node.props.flatMap((prop) =>
      prop.type === NodeTypes.DIRECTIVE && prop.exp ? [prop.exp.loc.source] : [],
    );
    return [...bound, ...expressionsIn(node.children)];
  });
}

/** Starts like a sentence; codes and keys are lower case, the mark NOT FOR SALE is upper case. */
const isSentence = (text: string): boolean => /^\P{L}*\p{Lu}\p{Ll}* +\p{L}{2}/u.test(text);

/** Sentences and labels in code. Messages of programming errors are never shown. */
function wordsInCode(code: string): string[] {
  const found: string[] = [];
  function look(node: ts.Node): void {
    if (ts.isNewExpression(node)) return;
    const labels = ts.isPropertyAssignment(node) && SAID.includes(node.name.getText());
    if (labels && ts.isStringLiteralLike(node.initializer) && isWords(node.initializer.text))
      found.push(node.initializer.text);
    else if ((ts.isStringLiteralLike(node) || ts.isTemplateHead(node)) && isSentence(node.text))
      found.push(node.text);
    else ts.forEachChild(node, look);
  }
  look(ts.createSourceFile('code.ts', code, ts.ScriptTarget.Latest, true));
  return found;
}

function hasWords(file: string): boolean {
  const source = readFileSync(join(UI, file), 'utf8');
  if (file.endsWith('.ts')) return wordsInCode(source).length > 0;
  const { template, scriptSetup } = parseFile(source).descriptor;
  const nodes = parse(template?.content ?? '').children;
  const code = [scriptSetup?.content ?? '', ...expressionsIn(nodes).map((one) => `(${one})`)];
  return code.flatMap(wordsInCode).length > 0;
}

it('finds text in template expressions', () => {
  const nodes = parse('<p>Take in <b :title="text.a">×</b></p><i>{{ a }} lb</i>').children;
  expect(expressionsIn(nodes)).toEqual(['text.a', 'a']);
});

it('finds text in code, and ignores codes, keys and programming errors', () => {
  const code = `
    const columns = [{ key: 'whole cuts', label: 'Part' }, { key: 'other', label: text.other }];
    toast(ok ? \`Took back \${name}.\` : 'Nothing was kept.');
    if (part === 'fat saved') throw new Error('No such part here.');`;
  expect(wordsInCode(code)).toEqual(['Part', 'Took back ', 'Nothing was kept.']);
});

it('has no text outside of src/ui/texts', () => {
  const files = globSync('**/*.{vue,ts}', { cwd: UI }).filter((file) => !/^(texts|samples)/.test(file));
  expect(files.filter(hasWords)).toEqual([]);
});
