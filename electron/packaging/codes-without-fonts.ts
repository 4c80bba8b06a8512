import type { Plugin } from 'vite';

const FONT = /^FontLib\.loadFont\(.*\);$/gm;

/**
 * Leaves the two fonts out that the package of bars and squares brings along: ours carry no letters (`labels/codes.ts`), and
 * the fonts are a twentieth of all scripts of the window.
 */
export function codesWithoutFonts(): Plugin {
  return {
    name: 'codes-without-fonts',
    transform(code, id) {
      if (!id.endsWith('bwip-js-gen.mjs')) return null;
      const light = code.replace(FONT, '');
      if (light === code) throw new Error('bwip-js no longer loads its fonts in lines of their own.');
      return { code: light, map: null };
    },
  };
}
