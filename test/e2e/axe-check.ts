/** What axe finds on the page of a window. */
import axe from 'axe-core';
import type { Page } from 'playwright-core';

export interface Violation {
  id: string;
  impact: string;
  nodes: { target: string; html: string }[];
}

/** The rules whose result depends on colors. A theme changes nothing else of a page. */
export const COLOR_RULES: readonly string[] = ['color-contrast', 'link-in-text-block'];

/** A page is asked about everything in the light theme, and in the dark one about colors. */
export const rulesIn = (theme: 'light' | 'dark'): readonly string[] | undefined =>
  theme === 'light' ? undefined : COLOR_RULES;

/** Brings axe into the page; a page that is loaded anew needs it again. */
export async function bringAxe(page: Page): Promise<void> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
}

/** Accessibility violations of the current page, from moderate up; `rules` for some rules only, `not` to leave some out. */
export async function violations(
  page: Page,
  rules?: readonly string[],
  not: readonly string[] = [],
): Promise<Violation[]> {
  const left = Object.fromEntries(not.map((rule) => [rule, { enabled: false }]));
  return page.evaluate(
    async ([only, off]) => {
      const checker = (window as unknown as { axe: typeof axe }).axe;
      const { violations: found } = await checker.run(document, {
        ...(only && { runOnly: { type: 'rule', values: [...only] } }),
        rules: off,
        resultTypes: ['violations'],
        preload: false, // Preloading only fetches the style sheets again.
      });
      return found
        .filter(({ impact }) => impact === 'moderate' || impact === 'serious' || impact === 'critical')
        .map(({ id, impact, nodes }) => ({
          id,
          impact: String(impact),
          nodes: nodes.slice(0, 3).map(({ target, html }) => ({ target: target.join(' '), html })),
        }));
    },
    [rules, left] as const,
  );
}
