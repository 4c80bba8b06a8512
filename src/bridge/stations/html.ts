/** Text in a page that is written as a string. */
export function safe(text: string): string {
  return text.replaceAll(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
