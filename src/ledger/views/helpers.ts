/** Functions that the views call, and that people's own queries may call. None of them fails for what a book may hold. */
export const HELPERS = `
CREATE OR REPLACE FUNCTION ledger.day(typed text) RETURNS date LANGUAGE sql IMMUTABLE PARALLEL SAFE
  RETURN CASE WHEN typed ~ '^[0-9]{4}-(0[1-9]|1[0-2])-[0-9]{2}$' AND left(typed, 4) <> '0000'
    THEN make_date(left(typed, 4)::integer, substr(typed, 6, 2)::integer, 1) + (substr(typed, 9, 2)::integer - 1) END;
COMMENT ON FUNCTION ledger.day(text) IS 'A day written YYYY-MM-DD, or NULL for any other text.';

CREATE OR REPLACE FUNCTION ledger.pounds(grams double precision) RETURNS double precision LANGUAGE sql IMMUTABLE PARALLEL SAFE
  RETURN grams / 453.59237;
COMMENT ON FUNCTION ledger.pounds(double precision) IS 'Grams in pounds: 1 lb is 453.59237 g exactly (international yard and pound agreement, 1959).';

CREATE OR REPLACE FUNCTION ledger.json_of(body text) RETURNS jsonb LANGUAGE sql IMMUTABLE PARALLEL SAFE
  RETURN CASE WHEN strpos(body, '\\u') = 0 OR body !~ '\\\\u(0000|[dD][89a-fA-F])' THEN body::jsonb END;
COMMENT ON FUNCTION ledger.json_of(text) IS 'JSON of a book, or NULL where it has characters that PostgreSQL has no place for.';

CREATE OR REPLACE FUNCTION ledger.number_at(body jsonb, path text[]) RETURNS double precision LANGUAGE sql IMMUTABLE PARALLEL SAFE
  RETURN CASE WHEN jsonb_typeof(body #> path) = 'number' THEN
    CASE WHEN abs((body #>> path)::numeric) < 1e-300 THEN 0 WHEN abs((body #>> path)::numeric) < 1e300
      THEN (body #>> path)::double precision END END;
COMMENT ON FUNCTION ledger.number_at(jsonb, text[]) IS 'The number at a place in JSON, or NULL.'`;
