import { onScopeDispose, watchEffect } from 'vue';
import type { Box } from './sizes.ts';

/** The page rule of a paper without margins; labels have their own. */
export function pageRule({ width, height }: Box): string {
  return `@page { size: ${width}mm ${height}mm; margin: 0; }`;
}

/** Prints on this paper while the page is open. */
export function usePageRule(page: () => Box): void {
  useSheetRule(() => pageRule(page()));
}

/**
 * A style rule that applies while the page is open. Constructed by script, because a style element needs a looser
 * content security policy, and a page rule cannot read variables.
 */
export function useSheetRule(rule: () => string): void {
  const sheet = new CSSStyleSheet();
  watchEffect(() => sheet.replaceSync(rule()));
  document.adoptedStyleSheets.push(sheet);
  onScopeDispose(() => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== sheet);
  });
}
