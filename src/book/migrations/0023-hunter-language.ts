/** The language of what a hunter gets: labels, receipts, bills, messages. Empty: that of the shop, as for all hunters before. */
export const hunterLanguage = `
ALTER TABLE hunter ADD COLUMN language TEXT NOT NULL DEFAULT '';
`;
