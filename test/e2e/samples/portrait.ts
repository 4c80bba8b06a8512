/** A screen in words: each drawn element with its box, colors, border and type, so that a change has a name. */
import type { Page } from 'playwright-core';

/** A group of samples, or an open dialog. */
export interface Portrait {
  name: string;
  /** In CSS pixels of the page. */
  box: { x: number; y: number; width: number; height: number };
  /** `button.main 12 40 96 44 | color … | fill …`: the box from the corner of its group, then what is not inherited. */
  lines: string[];
}

/** How far a box may be off, in CSS pixels: another build of the browser shapes text a little differently. */
const TOLERANCE = 2;

export function portraitsOf(page: Page, selector: string): Promise<Portrait[]> {
  return page.evaluate((which) => {
    return [...document.querySelectorAll(which)].map((group) => {
      const at = group.getBoundingClientRect();
      const lines = [...group.querySelectorAll('*')]
        .filter(
          (element) =>
            element.checkVisibility() &&
            !element.closest('.out-of-sight') &&
            !element.parentElement?.closest('svg'),
        )
        .map((element) => {
          const box = element.getBoundingClientRect();
          const style = getComputedStyle(element);
          const around = getComputedStyle(element.parentElement ?? element);
          const border = (['Top', 'Right', 'Bottom', 'Left'] as const)
            .map((side) =>
              style[`border${side}Style`] === 'none'
                ? '0px'
                : `${style[`border${side}Width`]} ${style[`border${side}Color`]}`,
            )
            .map((one) => (one.startsWith('0px') ? '0' : one))
            .filter((one, i, all) => all.indexOf(one) === i)
            .join(' / ');
          const name =
            element.tagName.toLowerCase() + [...element.classList].map((one) => `.${one}`).join('');
          // What is inherited is said once.
          const type = `${style.fontSize} ${style.fontWeight}`;
          const said = [
            style.color !== around.color && `color ${style.color}`,
            style.backgroundColor !== 'rgba(0, 0, 0, 0)' && `fill ${style.backgroundColor}`,
            border !== '0' && `border ${border}`,
            type !== `${around.fontSize} ${around.fontWeight}` && `type ${type}`,
            style.opacity !== '1' && `opacity ${style.opacity}`,
            style.boxShadow !== 'none' && `shadow ${style.boxShadow}`,
          ].filter(Boolean);
          const place = [box.x - at.x, box.y - at.y, box.width, box.height].map(Math.round).join(' ');
          return [`${name} ${place}`, ...said].join(' | ');
        });
      return {
        name: group.getAttribute('data-sample') ?? group.querySelector('h2')?.textContent ?? '',
        box: {
          x: Math.round(at.x + scrollX),
          y: Math.round(at.y + scrollY),
          width: Math.round(at.width),
          height: Math.round(at.height),
        },
        lines,
      };
    });
  }, selector);
}

/** As stored: a heading for each group with its box on the page, then its lines. */
export function written(portraits: readonly Portrait[]): string {
  return portraits
    .map(({ name, box, lines }) => [`## ${name} | ${Object.values(box).join(' ')}`, ...lines, ''].join('\n'))
    .join('\n');
}

/** The groups of a stored text. */
export function read(text: string): Portrait[] {
  return text
    .split(/^## /m)
    .slice(1)
    .map((group) => {
      const [head = '', ...lines] = group.split('\n').filter(Boolean);
      const [name = '', box = ''] = head.split(' | ');
      const [x = 0, y = 0, width = 0, height = 0] = box.split(' ').map(Number);
      return { name, box: { x, y, width, height }, lines };
    });
}

/** What differs between a stored group and a fresh one, a few lines of it. */
export function changesIn(before: readonly string[], now: readonly string[]): string[] {
  if (before.length !== now.length) return [`${before.length} elements became ${now.length}`];
  const changed = now.flatMap((line, i) =>
    same(before[i] ?? '', line) ? [] : [`${before[i]}\n    became ${line}`],
  );
  return changed.length > 4 ? [...changed.slice(0, 4), `and ${changed.length - 4} more`] : changed;
}

/** The same but for boxes that are a pixel or two off. */
function same(before: string, now: string): boolean {
  const split = (line: string) => /^(\S+) (-?\d+) (-?\d+) (-?\d+) (-?\d+)(.*)$/.exec(line);
  const [one, other] = [split(before), split(now)];
  if (!one || !other) return before === now;
  return (
    one[1] === other[1] &&
    one[6] === other[6] &&
    [2, 3, 4, 5].every((i) => Math.abs(Number(one[i]) - Number(other[i])) <= TOLERANCE)
  );
}
