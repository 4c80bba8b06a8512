/** Measurements of a page, made in the window: clipped text, touch targets, and the tab order. */
import type { Page } from 'playwright-core';

/** Describes an element and its position, for error messages. */
const NAME_IT = `(element) => {
  const label = element.getAttribute('aria-label') ?? element.innerText ?? element.value ?? '';
  const role = element.getAttribute('role');
  const place = element.closest('dialog, [role=dialog], section, nav, header, main');
  const around = place?.querySelector('h1, h2')?.innerText ?? place?.getAttribute('aria-label') ?? '';
  return [element.tagName.toLowerCase() + (role ? '[' + role + ']' : ''), element.className, '“' + label.trim().slice(0, 40) + '”', 'in', around.slice(0, 40)].join(' ');
}`;

/** Visible elements that match `selector`, except those for screen readers only. */
const SEEN = `(selector) => [...document.querySelectorAll(selector)].filter((element) =>
  !element.closest('.out-of-sight, [inert]') &&
  element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) &&
  element.getClientRects().length > 0)`;

/**
 * Unreadable or unreachable content: text clipped by its box, and elements left of or above the page. Scrollable
 * content does not count.
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

/** The share of the window's height covered by fixed headers and footers. */
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

/** Targets smaller than 44 px in either direction, links within a sentence included. */
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
    const hits = (element, x, y) => {
      const hit = document.elementFromPoint(x, y);
      if (!hit) return false;
      if (hit.closest('.toasts')) return true; // goes by itself
      if (element.contains(hit) || hit.contains(element) && hit.matches('label')) return true;
      return hit.closest('label')?.control === element;
    };
    const found = [];
    for (const element of targets) {
      // A mark of a chart: the table behind leads to the same.
      if (element instanceof SVGElement || element.closest('[data-marks]') || element.disabled) continue;
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

/** Tables wider than their frame, which hide a column or a button until scrolled. */
export function lostColumns(page: Page): Promise<string[]> {
  return page.evaluate(`(() => {
    const nameIt = ${NAME_IT};
    return [...document.querySelectorAll('main table, [role=dialog] table')]
      .filter((table) => table.checkVisibility() && table.parentElement.scrollWidth > table.parentElement.clientWidth + 1)
      .map((table) => (table.caption?.innerText.trim() ?? '') + ' ' + nameIt(table));
  })()`);
}

/** Placeholders longer than their field. */
export function clippedPlaceholders(page: Page): Promise<string[]> {
  return page.evaluate(`(() => {
    const seen = ${SEEN};
    const pen = document.createElement('canvas').getContext('2d');
    return seen('input[placeholder]').filter((input) => {
      const style = getComputedStyle(input);
      pen.font = style.font;
      const room = input.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
      return pen.measureText(input.placeholder).width > room + 1;
    }).map((input) => input.placeholder);
  })()`);
}

/** Buttons and heads of columns in which a word is broken over two lines, because they were squeezed. */
export function splitWords(page: Page): Promise<string[]> {
  return page.evaluate(`(() => {
    const nameIt = ${NAME_IT};
    const seen = ${SEEN};
    const found = [];
    for (const element of seen('button, th, [role=tab]')) {
      const walk = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
      for (let text = walk.nextNode(); text; text = walk.nextNode())
        for (const word of text.data.matchAll(/[\\p{L}\\p{N}]+/gu)) {
          const range = document.createRange();
          range.setStart(text, word.index);
          range.setEnd(text, word.index + word[0].length);
          const lines = new Set([...range.getClientRects()].map(({ top }) => Math.round(top)));
          if (lines.size > 1) found.push(word[0] + ' ' + nameIt(element));
        }
    }
    return found;
  })()`);
}

/**
 * What is one word and yet stands on two lines: a ticket, a batch, a phone number; a date, a weight or a percentage
 * that fills its cell; a flag. Paper is as wide as it is printed, so what stands on it does not count, nor does running
 * text.
 */
export function brokenWholes(page: Page): Promise<string[]> {
  return page.evaluate(`(() => {
    const nameIt = ${NAME_IT};
    const ALWAYS = /\\(\\d{3}\\) \\d{3}-\\d{4}|\\b[GQ]?\\d\\d-\\d{3,4}\\b/g;
    const ALONE = /^(?:[A-Z][a-z]{2}, )?[A-Z][a-z]{2} \\d{1,2}(?:, \\d{4})?$|^[\\d.,–]+\\s(?:lb|kg|%)$/;
    const lines = (range) => new Set([...range.getClientRects()].map(({ bottom }) => Math.round(bottom))).size;
    const found = [];
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = walk.nextNode(); text; text = walk.nextNode()) {
      const element = text.parentElement;
      if (!text.data.trim() || element.closest('p, svg, article, option, .out-of-sight') || !element.checkVisibility()) continue;
      const alone = text.data.trim();
      const wholes = [...text.data.matchAll(ALWAYS)].map((match) => [match.index, match[0]]);
      if (ALONE.test(alone) || element.matches('.flag')) wholes.push([text.data.indexOf(alone), alone]);
      for (const [at, whole] of wholes) {
        const range = document.createRange();
        range.setStart(text, at);
        range.setEnd(text, at + whole.length);
        if (lines(range) > 1) found.push(whole + ' ' + nameIt(element));
      }
    }
    return [...new Set(found)];
  })()`);
}

/** Texts of a drawing that lie on one another. */
export function textsOverText(page: Page): Promise<string[]> {
  return page.evaluate(`(() => {
    const seen = ${SEEN};
    return seen('main svg').flatMap((svg) => {
      const texts = [...svg.querySelectorAll('text')].map((text) => [text.textContent.trim(), text.getBoundingClientRect()]);
      // Boxes of letters are taller than the letters.
      const over = ([one, a], [other, b]) => one && other &&
        Math.min(a.right, b.right) - Math.max(a.left, b.left) > 2 &&
        Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.6 * Math.min(a.height, b.height);
      return texts.flatMap((one, i) => texts.slice(i + 1).filter((other) => over(one, other)).map(([other]) => one[0] + ' / ' + other));
    });
  })()`);
}

/** Number of rows of the navigation. */
export function headRows(page: Page): Promise<number> {
  return page.evaluate(`(() => {
    const links = [...document.querySelectorAll('header .bar nav a')];
    const tools = document.querySelector('header [role=search] input');
    const middles = [...links, tools].map((element) => element.getBoundingClientRect()).map(({ top, height }) => top + height / 2);
    return middles.filter((middle, i) => i === 0 || Math.abs(middle - middles[i - 1]) > 20).length;
  })()`);
}

/** Horizontal offset in pixels between the header and the page below it; empty for pages with another layout. */
export function edgesApart(page: Page): Promise<number[]> {
  return page.evaluate(`(() => {
    const within = (element) => {
      const box = element.getBoundingClientRect();
      const style = getComputedStyle(element);
      return [box.left + parseFloat(style.paddingLeft), box.right - parseFloat(style.paddingRight)];
    };
    const page = document.querySelector('main > .page');
    if (!page) return [];
    const [head, below] = [within(document.querySelector('header .frame-bar')), within(page)];
    return [0, 1].map((i) => Math.round(Math.abs(head[i] - below[i]))).filter((apart) => apart > 1);
  })()`);
}
