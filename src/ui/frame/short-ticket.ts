/** The part of a ticket that people say, without year and leading zeros. @example shortTicket('26-0178') // '178' */
export function shortTicket(ticket: string): string {
  const number = ticket.split('-').at(-1) ?? ticket;
  return number.replace(/^0+(?=.)/, '');
}
