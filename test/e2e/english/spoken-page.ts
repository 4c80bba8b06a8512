import type { Locator, Page } from 'playwright-core';
import type { Say } from './said.ts';

/** Methods that find by a text, and where it stands among their arguments. */
const BY_TEXT = ['getByText', 'getByLabel', 'getByPlaceholder', 'getByTitle'];

/** A page whose parts are found by their English names, in a window of another language. */
export function spokenPage(page: Page, say: Say): Page {
  return spoken(page, say);
}

const originals = new WeakMap<object, object>();

function spoken<T extends Page | Locator>(of: T, say: Say): T {
  const proxy = new Proxy(of, {
    get(target, name) {
      const own: unknown = Reflect.get(target, name);
      if (typeof own !== 'function') return own;
      return (...args: unknown[]) => {
        const plain = args.map((arg) => originals.get(arg as object) ?? arg);
        const found: unknown = own.apply(target, argumentsSaid(String(name), plain, say));
        return isLocator(found) ? spoken(found, say) : found;
      };
    },
  });
  originals.set(proxy, of);
  return proxy;
}

function argumentsSaid(method: string, args: unknown[], say: Say): unknown[] {
  const [first, options] = args as [
    string | RegExp,
    { name?: string | RegExp; exact?: boolean; hasText?: string | RegExp }?,
  ];
  if (BY_TEXT.includes(method)) return [say(first, options?.exact)];
  if (method === 'getByRole' && options?.name !== undefined)
    return [first, { ...options, name: say(options.name, options.exact), exact: undefined }];
  const asked = first as { hasText?: string | RegExp } | undefined;
  if (method === 'filter' && asked?.hasText !== undefined) return [{ ...asked, hasText: say(asked.hasText) }];
  return args;
}

function isLocator(value: unknown): value is Locator {
  return typeof value === 'object' && value !== null && 'filter' in value && 'click' in value;
}
