/** What a page is measured by: cut-off text, targets for a finger, and the way of the Tab key. Runs in the window. */
import type { Page } from 'playwright-core';

/** Roughly where an element stands, for the message of a test. */
const NAME_IT = `(element) => {
  const label = element.getAttribute('aria-label') ?? element.innerText ?? element.value ?? '';
  const role = element.getAttribute('role');
  const place = element.closest('dialog, [role=dialog], section, nav, header, main');
  const around = place?.querySelector('h1, h2')?.innerText ?? place?.getAttribute('aria-label') ?? '';
  return [element.tagName.toLowerCase() + (role ? '[' + role + ']' : ''), element.className, '“' + label.trim().slice(0, 40) + '”', 'in', around.slice(0, 40)].join(' ');
}`;

/** Elements that can be seen, among `selector`, that are not drawn for screen readers alone. */
const SEEN = `(selector) => [...document.querySelectorAll(selector)].filter((element) =>
  !element.closest('.out-of-sight, [inert]') &&
  element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) &&
  element.getClientRects().length > 0)`;

/**
 * What cannot be read or reached: text that runs out of a box that clips it, and what stands left of or above the
 * page. What a box scrolls is not cut off.
 */
export function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(`(() => {
    const nameIt = ${NAME_IT};
    const seen = ${SEEN};
    const found = [];
    const scrolls = (element) => {
      for (let around = element.parentElement; around && around !== document.body; around = around.parentElement)
        if (/auto|scroll/.test(getComputedStyle(around).overflow)) return true;
      return false;
    };
    const root = document.documentElement;
    if (root.scrollWidth > root.clientWidth) {
      found.push('the page is ' + (root.scrollWidth - root.clientWidth) + ' px wider than the window');
      for (const element of seen('body *')) {
        if (element.getBoundingClientRect().right > root.clientWidth + 1 && !scrolls(element) && element.children.length === 0)
          found.push('  out on the right: ' + nameIt(element));
      }
    }
    for (const element of seen('body *')) {
      if (element instanceof SVGElement || !element.innerText?.trim()) continue;
      const { overflowX, overflowY } = getComputedStyle(element);
      const clips = (overflow) => overflow === 'hidden' || overflow === 'clip';
      if (clips(overflowX) && element.scrollWidth > element.clientWidth + 1) found.push('cut off across: ' + nameIt(element));
      if (clips(overflowY) && element.scrollHeight > element.clientHeight + 1) found.push('cut off below: ' + nameIt(element));
      const box = element.getBoundingClientRect();
      if (scrolls(element)) continue;
      if (box.right <= 0 || box.bottom + scrollY <= 0) found.push('outside the page: ' + nameIt(element));
    }
    for (const element of seen('select')) {
      const style = getComputedStyle(element);
      const pen = document.createElement('canvas').getContext('2d');
      pen.font = style.font;
      const room = element.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight) - 16;
      const text = element.selectedOptions[0]?.text ?? '';
      if (pen.measureText(text).width > room + 4) found.push('choice cut off: ' + text + ' ' + nameIt(element));
    }
    return [...new Set(found)];
  })()`);
}

/** Heads and feet that stay while the page scrolls, as the share of the window's height that they cover. */
export function coveredShare(page: Page): Promise<number> {
  return page.evaluate(`(() => {
    const seen = ${SEEN};
    if (seen('dialog, [role=dialog]').length > 0) return 0; // a sheet scrolls by itself
    const stuck = seen('body *').filter((element) => {
      const { position, top, bottom } = getComputedStyle(element);
      return position === 'fixed' || (position === 'sticky' && (top !== 'auto' || bottom !== 'auto'));
    });
    const across = stuck.map((element) => element.getBoundingClientRect()).filter(({ width }) => width > innerWidth * 0.6);
    return across.reduce((sum, { height }) => sum + height, 0) / innerHeight;
  })()`);
}

/** What a finger in a glove would miss: less than 44 px across or down, links within a sentence excepted. */
export function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(`(() => {
    const nameIt = ${NAME_IT};
    const seen = ${SEEN};
    const REACH = 21;
    const open = [...document.querySelectorAll('dialog[open], [role=dialog]')].at(-1);
    const targets = new Set(seen('a[href], button, input, select, textarea, summary, [role=button], [role=tab], [role=option], [role=menuitem]')
      .filter((element) => !open || open.contains(element)));
    // A box to tick and its words are one target.
    for (const box of document.querySelectorAll('input[type=checkbox], input[type=radio]')) {
      const label = box.closest('label');
      if (!label || !label.checkVisibility() || (open && !open.contains(label))) continue;
      targets.delete(box);
      targets.add(label);
    }
    const inSentence = (element) => {
      if (element instanceof SVGElement) return true; // a mark of a chart: the table behind leads to the same
      if (!element.matches('a') || getComputedStyle(element).display !== 'inline') return false;
      const around = [...element.parentNode.childNodes].filter((node) => node !== element);
      return around.some((node) => node.nodeType === Node.TEXT_NODE && /\\p{L}{2}/u.test(node.textContent));
    };
    const hits = (element, x, y) => {
      const hit = document.elementFromPoint(x, y);
      if (!hit) return false;
      if (element.contains(hit) || hit.contains(element) && hit.matches('label')) return true;
      return hit.closest('label')?.control === element;
    };
    const found = [];
    for (const element of targets) {
      if (inSentence(element) || element.disabled) continue;
      element.scrollIntoView({ block: 'center', inline: 'center' });
      const box = [...element.getClientRects()].at(0);
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      const short = [[-REACH, 0], [REACH, 0], [0, -REACH], [0, REACH]].filter(([dx, dy]) => {
        const [px, py] = [x + dx, y + dy];
        return px >= 0 && py >= 0 && px < innerWidth && py < innerHeight && !hits(element, px, py);
      });
      if (short.length > 0)
        found.push(Math.round(box.width) + '×' + Math.round(box.height) + ' ' + nameIt(element) + ' misses ' + JSON.stringify(short));
    }
    return [...new Set(found)];
  })()`);
}
