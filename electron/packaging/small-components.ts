/** Makes the components of the window's build smaller. */
import { globSync } from 'node:fs';
import type { Plugin } from 'vite';

const tidy = (path: string): string => path.replaceAll('\\', '/');

/**
 * The number of each component, which marks its scoped styles: a hash of 8 characters does not compress.
 * @param root folder of the components, to which the paths are relative
 */
export function shortIds(root: string): (path: string) => string {
  const files = globSync('**/*.vue', { cwd: root }).map(tidy).sort();
  const numbers = new Map(files.map((file, i) => [file, i.toString(36)]));
  // One that was added while a development server runs has no number.
  return (path) => numbers.get(tidy(path)) ?? tidy(path).replace(/\W/g, '-');
}

/** Leaves out the names of components, which only developer tools read. A component that contains itself would need its own. */
export const namelessComponents: Plugin = {
  name: 'nameless-components',
  apply: (_, { command, mode }) => command === 'build' && mode !== 'development',
  transform: {
    filter: { code: /__name: / },
    handler: (code) => ({ code: code.replace(/\b__name: (["'])\w+\1,?/g, ''), map: null }),
  },
};

const IMPORT = /import\s*\{([^}]*)\}\s*from/g;

/**
 * Reads imports directly. The compiler of templates cannot see that an import of a `.ts` file is no ref, and asks each time:
 * `unref(text).title`. No module of the window exports a ref; `test/packaging/window-scripts.test.ts` holds it to that.
 */
export const plainImports: Plugin = {
  name: 'plain-imports',
  apply: (_, { command, mode }) => command === 'build' && mode !== 'development',
  transform: {
    filter: { code: /_unref\(/ },
    handler: (code) => {
      const names = new Set(
        [...code.matchAll(IMPORT)].flatMap(([, list = '']) =>
          list.split(',').map(
            (one) =>
              one
                .trim()
                .split(/\s+as\s+/)
                .at(-1) ?? '',
          ),
        ),
      );
      return {
        code: code.replace(/\b_unref\((\w+)\)/g, (all, name: string) => (names.has(name) ? name : all)),
        map: null,
      };
    },
  },
};

/** The flags and names of changing props at the end of a compiled element: `, 8, ["to", "title"])`. */
const CHANGING = /,\s*(\d+),\s*\[\s*(?:"[^"]*",?\s*)+\]\s*\)/g;
/** Patch flags of Vue (`PatchFlags` in @vue/shared). */
const [CLASS_OR_STYLE, PROPS, FULL_PROPS] = [6, 8, 16];

/** Compares all props of an element instead of listing those that may change: the lists take more room than they save time. */
export const fullProps: Plugin = {
  name: 'full-props',
  apply: (_, { command, mode }) => command === 'build' && mode !== 'development',
  transform: {
    filter: { id: /\.vue\b/, code: /_create(Element|V|Block)/ },
    handler: (code) => ({
      code: code.replace(CHANGING, (all, flags: string) =>
        Number(flags) & PROPS ? `, ${(Number(flags) & ~(PROPS | CLASS_OR_STYLE)) | FULL_PROPS})` : all,
      ),
      map: null,
    }),
  },
};
