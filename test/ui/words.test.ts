/** The words of the window stand in `src/ui/texts`, so that they can be read, mended and translated in one place. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { NodeTypes, parse, type TemplateChildNode } from '@vue/compiler-dom';
import { parse as parseFile } from 'vue/compiler-sfc';

const UI = join(import.meta.dirname, '../../src/ui');
const SAID = ['aria-label', 'placeholder', 'title', 'label', 'hint', 'text', 'caption', 'alt', 'keep-label'];
/** Words, not signs and units: two letters that follow each other and are no unit. */
const isWords = (text: string): boolean => /\p{L}{2}/u.test(text.replace(/\b(lb|kg|oz|Ctrl|Gambrel)\b/g, ''));

function wordsIn(nodes: readonly TemplateChildNode[]): string[] {
  return nodes.flatMap((node): string[] => {
    if (node.type === NodeTypes.TEXT) return isWords(node.content) ? [node.content.trim()] : [];
    if (node.type !== NodeTypes.ELEMENT) return [];
    const said = node.props.flatMap((prop) =>
      prop.type === NodeTypes.ATTRIBUTE && SAID.includes(prop.name) && isWords(prop.value?.content ?? '')
        ? [prop.value?.content ?? '']
        : [],
    );
    return [...said, ...wordsIn(node.children)];
  });
}

function hasWords(file: string): boolean {
  const template = parseFile(readFileSync(join(UI, file), 'utf8')).descriptor.template;
  return template !== null && wordsIn(parse(template.content).children).length > 0;
}

it('finds words outside the texts', () => {
  const nodes = parse(
    '<p>Take in <b :title="text.a">×</b></p><Field label="Name" /><i>{{ a }} lb</i>',
  ).children;
  expect(wordsIn(nodes)).toEqual(['Take in', 'Name']);
});

it('has no words in a template', () => {
  expect(globSync('**/*.vue', { cwd: UI }).filter(hasWords)).toEqual([]);
});
