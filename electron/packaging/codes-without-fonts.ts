import type { Plugin } from 'vite';

const FONT = /^FontLib\.loadFont\(.*\);$/gm;

/**
 * Excludes the two fonts of the barcode package: our codes have no text (`labels/codes.ts`), and the fonts are a
 * twentieth of the window's scripts.
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
