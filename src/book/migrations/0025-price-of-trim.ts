/** Prices by recipe, and by trim as well as by finished weight: the basis says which. A line may have a minimum of its own. */
export const priceOfTrim = `
-- A JSON list of recipes; NULL in lines from before.
ALTER TABLE price_line ADD COLUMN recipes TEXT CHECK (json_valid(recipes));
-- Where it charges at all, it charges for no less than so many of its units.
ALTER TABLE price_line ADD COLUMN least REAL CHECK (least > 0);
`;
