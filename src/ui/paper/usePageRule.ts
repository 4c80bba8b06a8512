import { onScopeDispose, watchEffect } from 'vue';
import type { Box } from './sizes.ts';

/** The page rule of a paper without margins; labels keep their own empty edge. */
export function pageRule({ width, height }: Box): string {
  return `@page { size: ${width}mm ${height}mm; margin: 0; }`;
}

/** Prints on this paper as long as the page is open. */
export function usePageRule(page: () => Box): void {
  useSheetRule(() => pageRule(page()));
}

/**
 * A style rule that holds as long as the page is open. A sheet made by script, because a style element would need a
 * looser content security policy and a page rule cannot read variables.
 */
export function useSheetRule(rule: () => string): void {
  const sheet = new CSSStyleSheet();
  watchEffect(() => sheet.replaceSync(rule()));
  document.adoptedStyleSheets.push(sheet);
  onScopeDispose(() => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== sheet);
  });
}
