/**
 * A letter for each primal: the first of its name that is not yet taken.
 * @example primalKeys([{ code: 'neck', name: 'Neck' }, { code: 'nape', name: 'Nape' }]) // { neck: 'N', nape: 'A' }
 */
export function primalKeys(primals: readonly { code: string; name: string }[]): Record<string, string> {
  const taken = new Set<string>();
  return Object.fromEntries(
    primals.map(({ code, name }) => {
      const letter = [...name.toUpperCase()].find((one) => /\p{L}/u.test(one) && !taken.has(one)) ?? '';
      taken.add(letter);
      return [code, letter];
    }),
  );
}
