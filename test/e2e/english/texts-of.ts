import type { Page } from 'playwright-core';

declare global {
  interface Window {
    drawnTexts?: Set<string>;
  }
}

/** Remembers what is written onto canvases, where no element holds it. Call it before the page is opened. */
export async function watchCanvases(page: Page): Promise<void> {
  await page.addInitScript(() => {
    window.drawnTexts = new Set();
    const { prototype } = CanvasRenderingContext2D;
    const draw = prototype.fillText;
    prototype.fillText = function (text, ...place) {
      window.drawnTexts?.add(text);
      draw.call(this, text, ...place);
    };
  });
}

/**
 * Every text of the page that claims to be in the window's language, shown or for screen readers, folded up or for print only. What an
 * element marks as another language (`lang`) is left out.
 */
export function textsOf(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const own = document.documentElement.lang;
    const speaksOwn = (element: Element | null): boolean =>
      element?.closest('[lang]')?.getAttribute('lang') === own;
    const texts = new Set([document.title, ...(window.drawnTexts ?? [])]);
    window.drawnTexts?.clear();
    // What stands at the foot of printed pages.
    for (const { cssRules } of document.adoptedStyleSheets)
      for (const rule of cssRules)
        for (const [said] of rule.cssText.matchAll(/(?<=content:[^;]*)"[^"]+"/g)) texts.add(said);
    const nodes = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (nodes.nextNode()) {
      const { parentElement, nodeValue } = nodes.currentNode;
      if (!parentElement?.closest('script, style') && speaksOwn(parentElement)) texts.add(nodeValue ?? '');
    }
    const attributes = [
      'aria-label',
      'aria-description',
      'aria-roledescription',
      'aria-valuetext',
      'title',
      'placeholder',
      'alt',
      'label',
    ];
    for (const name of attributes)
      for (const element of document.querySelectorAll(`[${name}]`))
        if (speaksOwn(element)) texts.add(element.getAttribute(name) ?? '');
    const zones = new Set(Intl.supportedValuesOf('timeZone'));
    return [...texts].map((text) => text.trim()).filter((text) => text !== '' && !zones.has(text));
  });
}
