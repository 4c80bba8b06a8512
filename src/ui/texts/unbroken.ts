/** Text that stays on one line, such as a phone number. For the screen only: files keep plain spaces. */
export const unbroken = (text: string): string => text.replaceAll(' ', '\u00a0');

/** Text in which a figure and its unit stay together. @example unbrokenUnits('3 weights, 33.10 lb') */
export const unbrokenUnits = (text: string): string => text.replace(/(\d) (?=(?:lb|oz|kg|g)\b)/g, '$1\u00a0');
