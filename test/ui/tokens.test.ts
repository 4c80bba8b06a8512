import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/**
 * Contrast of text on its background, WCAG 2.2 success criterion 1.4.3: at least 4.5 to 1
 * (relative luminance and ratio as defined in WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio);
 * edges of controls at least 3 to 1 (1.4.11).
 */
const css = readFileSync('src/ui/look/tokens.css', 'utf8');
const [lightText = '', darkText = ''] = css.split(":root[data-theme='dark']");
const light = colors(lightText);
const dark = { ...light, ...colors(darkText) };

const textPairs = [
  ['ink', 'ground'], ['ink', 'card'], ['ink', 'well'], ['muted', 'card'], ['muted', 'ground'], ['muted', 'well'],
  ['ink', 'blaze-tint'], ['blaze', 'blaze-tint'], ['blaze', 'card'], ['blaze', 'ground'], ['on-blaze', 'blaze'],
  ['on-spruce', 'spruce'], ['spruce', 'card'], ['spruce', 'ground'], ['spruce', 'spruce-tint'], ['ink', 'spruce-tint'],
  ['muted', 'spruce-tint'],
  ['on-head', 'head'], ['on-head-soft', 'head'], ['on-tag', 'tag-fresh'], ['on-tag', 'tag-due'], ['ink', 'amber-tint'], ['muted', 'amber-tint'], ['spruce', 'amber-tint'],
  ['on-tag-over', 'tag-over'], ['on-lean', 'part-lean'], ['on-trim', 'part-trim'], ['on-fat', 'part-fat'],
  ['on-bone', 'part-bone'], ['on-sinew', 'part-sinew'], ['on-damage', 'part-damage'],
] as const; // prettier-ignore
const edgePairs = [
  ['edge', 'card'],
  ['edge', 'ground'],
  ['spruce', 'well'],
] as const;

describe.each([
  ['light', light],
  ['dark', dark],
])('colors, %s', (_, theme) => {
  it.each(textPairs)('%s is legible on %s', (text, ground) =>
    expect(contrast(theme[text], theme[ground])).toBeGreaterThanOrEqual(4.5),
  );
  it.each(edgePairs)('%s is visible on %s', (edge, ground) =>
    expect(contrast(theme[edge], theme[ground])).toBeGreaterThanOrEqual(3),
  );
});

it('contrast is computed as in the standard: black on white is 21, #777 on white 4.48', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
  expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
});

function colors(block: string): Record<string, string> {
  return Object.fromEntries(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name, hex]) => [name, hex]),
  );
}

function contrast(one: string | undefined, other: string | undefined): number {
  const [bright, dim] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return ((bright ?? 0) + 0.05) / ((dim ?? 0) + 0.05);
}

function luminance(hex: string | undefined): number {
  if (!hex) throw new Error('no such color');
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((at) => parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
