/** Combining marks: é decomposes into e and one of these. */
const MARKS = /\p{M}/gu;
const MAX_LENGTH = 36;

/**
 * A code for a name: its plain letters and digits, and a number if that code is in use.
 * @example codeOfName('Café sausage', ['cafe-sausage'], 'product') // 'cafe-sausage-2'
 */
export function codeOfName(name: string, taken: Iterable<string>, fallback: string): string {
  const codes = new Set(taken);
  const stem =
    name
      .normalize('NFKD')
      .replace(MARKS, '')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .slice(0, MAX_LENGTH)
      .replace(/^-+|-+$/g, '') || fallback;
  let code = stem;
  for (let n = 2; codes.has(code); n++) code = `${stem}-${n}`;
  return code;
}
