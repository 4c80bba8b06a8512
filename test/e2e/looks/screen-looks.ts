/** What a screen draws: its filled buttons, texts that wrap in buttons, and where blaze stands. */
import type { Page } from 'playwright-core';

/** Something drawn in blaze. */
export interface BlazeMark {
  /** Its own and its parents' classes, innermost first: `.flag.attention < .who`. */
  at: string;
  text: string;
}

export interface ScreenLooks {
  /** Labels of the filled buttons, for each screen: an open dialog and the card of the tour are screens of their own. */
  filled: string[][];
  /** Labels of the buttons in which a text stands on more than one line. */
  wrapped: string[];
  blaze: BlazeMark[];
}

/** Of the open dialog, which is a screen of its own, or of the page with its frame. */
export function looksOf(page: Page): Promise<ScreenLooks> {
  return page.evaluate(() => {
    const screen = [...document.querySelectorAll('[role=dialog]')].at(-1) ?? document.body;
    const seen = (selector: string): Element[] =>
      [...screen.querySelectorAll(selector)].filter(
        (element) =>
          !element.closest('.out-of-sight, .toasts, article.paper') &&
          element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) &&
          element.getClientRects().length > 0,
      );
    const saidBy = (element: Element): string =>
      (element.getAttribute('aria-label') ?? element.textContent ?? '')
        .trim()
        .replace(/\s+/g, ' ')
        .slice(0, 60);

    const probe = document.createElement('i');
    document.body.append(probe);
    const tokens = (...names: string[]): Set<string> =>
      new Set(
        names.map((name) => {
          probe.style.color = `var(${name})`;
          return getComputedStyle(probe).color;
        }),
      );
    const fills = tokens('--spruce', '--blaze');
    const blazes = tokens('--blaze', '--blaze-tint', '--tag-over', '--flag');
    probe.remove();

    const buttons = seen('button, [role=button]').filter((one) =>
      fills.has(getComputedStyle(one).backgroundColor),
    );
    const ofTour = (one: Element): boolean => one.closest('.tour') !== null;
    const filled = [buttons.filter((one) => !ofTour(one)), buttons.filter(ofTour)].map((some) =>
      some.map(saidBy),
    );

    const wrapped: string[] = [];
    for (const button of seen('button, [role=button], [role=tab]')) {
      const walk = document.createTreeWalker(button, NodeFilter.SHOW_TEXT);
      for (let text = walk.nextNode(); text; text = walk.nextNode()) {
        if (!text.textContent?.trim() || text.parentElement?.closest('.out-of-sight')) continue;
        const range = document.createRange();
        range.selectNodeContents(text);
        const lines = new Set([...range.getClientRects()].map(({ top }) => Math.round(top)));
        if (lines.size > 1) wrapped.push(saidBy(button));
      }
    }

    const ownText = (element: Element): boolean =>
      [...element.childNodes].some(
        (node) => node.nodeType === Node.TEXT_NODE && Boolean(node.textContent?.trim()),
      );
    const drawn = (element: Element, pseudo?: string): boolean => {
      const style = getComputedStyle(element, pseudo);
      if (pseudo && style.content === 'none') return false;
      const sides = ['Top', 'Right', 'Bottom', 'Left'] as const;
      return (
        ((ownText(element) || Boolean(pseudo && style.content.length > 2)) && blazes.has(style.color)) ||
        blazes.has(style.backgroundColor) ||
        [...blazes].some((blaze) => style.backgroundImage.includes(blaze)) ||
        sides.some(
          (side) =>
            blazes.has(style[`border${side}Color`]) &&
            style[`border${side}Style`] !== 'none' &&
            style[`border${side}Width`] !== '0px',
        ) ||
        (style.outlineStyle !== 'none' && blazes.has(style.outlineColor)) ||
        [...blazes].some((blaze) => style.boxShadow.includes(blaze)) ||
        (element instanceof SVGElement && (blazes.has(style.fill) || blazes.has(style.stroke)))
      );
    };
    const nameOf = (element: Element): string =>
      element.tagName.toLowerCase() + [...element.classList].map((one) => `.${one}`).join('');
    const chain = (element: Element): string => {
      const names: string[] = [];
      for (let at: Element | null = element; at && at !== screen && names.length < 5; at = at.parentElement)
        names.push(nameOf(at));
      return names.join(' < ');
    };
    const blaze = seen('*')
      .filter((element) => drawn(element) || drawn(element, '::before') || drawn(element, '::after'))
      .map((element) => ({ at: chain(element), text: saidBy(element) }));
    return { filled, wrapped, blaze };
  });
}
