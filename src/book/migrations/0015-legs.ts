/**
 * Whether an animal in its hide came with its lower legs on or off: of the same weight more hangs without them. Of animals
 * from before nobody said; they count as with their legs on, as before.
 */
export const legs = `
ALTER TABLE animal ADD COLUMN legs TEXT NOT NULL DEFAULT 'unknown' CHECK (legs IN ('on', 'off', 'unknown'));
`;
