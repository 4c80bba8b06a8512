/** Longest part of an outside name that a sentence shows. */
const MAX_LENGTH = 60;

/** A name from outside for use in a sentence: without control and formatting characters, and of limited length. */
export function shownName(name: string): string {
  const plain = name.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, '�');
  return plain.length > MAX_LENGTH ? `${plain.slice(0, MAX_LENGTH)}…` : plain;
}
