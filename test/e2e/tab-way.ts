/** The tab order of the current page. Runs in the window. */
import type { Page } from 'playwright-core';

interface TabWay {
  /** Interactive elements that never get the focus, or elements that only look interactive. */
  unreached: string[];
  /** Tab stops above the previous one in the same column. */
  backwards: string[];
  /** Tab stops without a visible focus indicator. */
  unseen: string[];
}

export function tabWay(page: Page): Promise<TabWay> {
  return page.evaluate(`(async () => {
    const named = (element) => element.tagName.toLowerCase() + ' “' +
      (element.getAttribute('aria-label') ?? element.innerText ?? element.value ?? '').trim().slice(0, 40) + '”';
    const open = [...document.querySelectorAll('[role=dialog]')].at(-1);
    const seen = (element) => element.checkVisibility({ visibilityProperty: true }) && !element.closest('[inert], [aria-hidden=true]') && (!open || open.contains(element));
    const ACTIVE = 'a[href], button, input, select, textarea, summary, [role=button], [role=tab], [role=radio], [tabindex="0"]';
    const active = [...document.querySelectorAll(ACTIVE)].filter((element) => seen(element) && !element.disabled);
    // Of a group of radio buttons, of tabs or of the marks of a chart one is a stop; arrows reach the others.
    const oneOfMany = (element) => element.matches('[type=radio], [role=tab], [role=option], [role=radio]') ||
      element.closest('[data-marks]')?.querySelectorAll('[tabindex="0"]').length === 1;
    // The calendar of a day is opened by a key of its field.
    const byKey = (element) => element.matches('button[aria-keyshortcuts]') && element.parentElement.querySelector('input[aria-keyshortcuts="' + element.getAttribute('aria-keyshortcuts') + '"]') !== null;
    const unreached = active.filter((element) => element.tabIndex < 0 && !oneOfMany(element) && !byKey(element)).map(named);
    for (const element of document.querySelectorAll('main *, [role=dialog] *'))
      if (seen(element) && getComputedStyle(element).cursor === 'pointer' && !element.closest(ACTIVE + ', label'))
        unreached.push('only by mouse: ' + named(element));

    // The bar of the frame stays in sight: of a page that is scrolled, what comes after it may stand above it.
    scrollTo(0, 0);
    // The actions of a long sheet stick to its foot; at its end they stand where they belong.
    open?.scrollTo(0, open.scrollHeight);
    const stops = active.filter((element) => element.tabIndex >= 0 && !(oneOfMany(element) && element.type === 'radio' && !element.checked));
    const early = active.filter((element) => element.tabIndex > 0).map((element) => 'ahead of all: ' + named(element));
    const backwards = [...early];
    for (const [i, element] of stops.slice(1).entries()) {
      const [a, b] = [stops[i].getBoundingClientRect(), element.getBoundingClientRect()];
      const overlap = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const sameColumn = overlap > 0.5 * Math.min(a.width, b.width);
      if (sameColumn && b.bottom <= a.top && !element.closest('.toasts') && !stops[i].closest('.toasts') && stops[i].closest('svg') === null && element.closest('svg') === null)
        backwards.push(named(stops[i]) + ' then ' + named(element));
    }

    const unseen = [];
    const shows = (element) => {
      if (!element) return false;
      // A region of the drawing gets a ring of its own, drawn with the next frame.
      if (element.matches('g')) return element.ownerSVGElement.querySelector('.ring') !== null;
      const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(element);
      return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2 && !/, 0\\)$/.test(outlineColor);
    };
    const before = document.activeElement;
    for (const element of stops) {
      document.activeElement?.blur?.(); // what has the focus already is not told anew how it came
      element.focus({ preventScroll: true, focusVisible: true });
      if (element.matches('g')) await new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn)));
      if (document.activeElement === element && !shows(element) && !shows(element.closest('label'))) unseen.push(named(element));
    }
    before?.focus?.({ preventScroll: true });
    return { unreached: [...new Set(unreached)], backwards: [...new Set(backwards)], unseen: [...new Set(unseen)] };
  })()`);
}
