/** Text that stays on one line, such as a phone number. For the screen only: files keep plain spaces. */
export const unbroken = (text: string): string => text.replaceAll(' ', '\u00a0');
