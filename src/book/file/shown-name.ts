/** As much of a name as a sentence takes; what comes from outside may be of any length. */
const LONGEST = 60;

/** A name from outside as it can stand in a sentence: without what moves or hides letters, and of limited length. */
export function shownName(name: string): string {
  const plain = name.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, '�');
  return plain.length > LONGEST ? `${plain.slice(0, LONGEST)}…` : plain;
}
