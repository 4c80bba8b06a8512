/**
 * A text as it is compared in a search: without accents, in lower case.
 * @example plainLetters('Wapití (elk)') // 'wapiti (elk)'
 */
export const plainLetters = (text: string): string =>
  text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
