/**
 * What the program offered as a reason, or as the size of a whole cut, becomes a code: `reason:CODE`, `size:CODE`. Before, the book
 * kept the words, in English or, from earlier versions, in the language of the window. Only the exact words that a version of the program
 * offered are turned; anything else stays as it was typed.
 */

/** Every wording that a version offered in en-US, es-MX or fr-CA, by its code. */
const REASONS: Readonly<Record<string, readonly string[]>> = {
  'weighed-twice': ['weighed twice', 'pesado dos veces', 'pesé deux fois'],
  'wrong-animal': ['wrong animal', 'era otro animal', 'mauvais animal'],
  'wrong-part': ['wrong part', 'era otra parte', 'mauvaise partie'],
  mistyped: ['mistyped', 'mal escrito', 'faute de frappe'],
  'weighed-again': ['weighed again', 'pesado de nuevo', 'pesé de nouveau'],
  undone: ['undone', 'deshecho', 'défait'],
  'entered-by-mistake': ['entered by mistake', 'capturado por error', 'saisi par erreur'],
  'correction-undone': ['correction undone', 'corrección deshecha', 'correction défaite'],
  'wrong-cooler': ['wrong cooler', 'era otro cuarto frío', 'mauvaise chambre froide'],
  'weighed-again-right': [
    'Weighed again, it is right',
    'Se pesó de nuevo; es correcto',
    'Pesé de nouveau, c’est exact',
  ],
  'move-undone': ['move undone', 'cambio deshecho', 'déplacement défait'],
  'processed-after-all': ['processed after all', 'siempre sí se procesa', 'débité quand même'],
  'no-price-line': ['No price line for it', 'No tiene renglón', 'Aucune ligne de prix pour cela'],
  'still-here': ['Still here', 'Sigue aquí', 'Encore ici'],
  'left-again': ['Left again', 'Se fue', 'Reparti'],
  'typed-twice': ['Typed twice', 'Escrito dos veces', 'Saisi deux fois'],
  'another-animal': ['Another animal', 'Otro animal', 'Un autre animal'],
  'not-clear': ['Not clear enough', 'No se ve bien', 'Pas assez nette'],
  'handed-over': ['handed over'],
  'opened-again': ['opened again'],
  'disposed-with-animal': ['disposed of with its animal'],
  'details-removed': ['details removed'],
  'not-a-day': ['not a day'],
  'not-a-moment': ['not a moment'],
  'stated-by-mistake': ['stated by mistake'],
  'no-line': ['No line for it', 'Aucune ligne pour cela'],
  'undone-then': ['Undone', 'Deshecho', 'Défait'],
  'undone-at-once': ['Undone at once', 'Deshecho al momento', 'Défait aussitôt'],
  'undone-at-once-batch': ['défait aussitôt'],
  'photo-undone': ['rétabli'],
};

const SIZES: Readonly<Record<string, readonly string[]>> = {
  'bone-in': ['bone in', 'con hueso', 'avec os'],
  boneless: ['boneless', 'sin hueso', 'désossé'],
  tied: ['boneless and tied', 'sin hueso y amarrado', 'désossé et ficelé'],
};

/** Tables whose rows are written once, with a reason of this name. */
const OF_REASON = [
  'adjustment', 'adjustment_void', 'affected_note_void', 'audit', 'belonging_end_void', 'belonging_void', 'bill_void',
  'cooler_temperature_void', 'deviation_void', 'disposal', 'disposal_void', 'donation_void', 'draft_state', 'grinder_cleaning_void',
  'hold', 'hold_result', 'intake_cancel', 'intake_cancel_void', 'load_batch_void', 'load_exclusion', 'load_exclusion_void',
  'load_log_void', 'load_record', 'made_analysis_void', 'made_batch_void', 'made_stage_void', 'made_weighed_void', 'part_none_void',
  'payment_void', 'photograph_void', 'pickup_notice_void', 'recipe_version', 'release_void', 'share_pickup_void', 'share_split',
  'station_state', 'till_close_void', 'unprocessed', 'unprocessed_void', 'weighing_void', 'work_time_void',
]; // prettier-ignore

const quoted = (text: string): string => `'${text.replaceAll("'", "''")}'`;
const rowsOf = (kind: string, words: Readonly<Record<string, readonly string[]>>): string[] =>
  Object.entries(words).flatMap(([code, said]) =>
    said.map((text) => `('${kind}', ${quoted(text)}, '${kind}:${code}')`),
  );

/** The code of `text`; NULL for words of a person. */
const codeOf = (kind: string, text: string): string =>
  `(SELECT w.code FROM offered_word w WHERE w.kind = '${kind}' AND w.text = ${text})`;

const isOffered = (kind: string, text: string): string =>
  `${text} IN (SELECT w.text FROM offered_word w WHERE w.kind = '${kind}')`;

const turnColumn = (table: string, column: string): string =>
  `UPDATE ${table} SET ${column} = ${codeOf('reason', column)} WHERE ${isOffered('reason', column)};`;

/** Turns a field of each object of a list in the JSON of a column. */
function turnList(table: string, column: string, list: string, field: string, kind: string): string {
  const each = `json_each(${table}.${column}, '$.${list}')`;
  const value = `o.value ->> '$.${field}'`;
  return `UPDATE ${table} SET ${column} = json_set(${column}, '$.${list}', json((
    SELECT json_group_array(json(iif(${isOffered(kind, value)}, json_set(o.value, '$.${field}', ${codeOf(kind, value)}), o.value)) ORDER BY o.key)
    FROM ${each} o)))
  WHERE json_type(${column}, '$.${list}') = 'array' AND EXISTS (SELECT 1 FROM ${each} o WHERE ${isOffered(kind, value)});`;
}

/** A row that is written once is turned while nothing guards it. */
const unguarded = (table: string, sql: string): string => `DROP TRIGGER ${table}_no_update;
${sql}
CREATE TRIGGER ${table}_no_update BEFORE UPDATE ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`;

export const reasonsAsCodes = `
CREATE TABLE offered_word (kind TEXT NOT NULL, text TEXT NOT NULL, code TEXT NOT NULL, PRIMARY KEY (kind, text)) STRICT, WITHOUT ROWID;
INSERT INTO offered_word VALUES
${[...rowsOf('reason', REASONS), ...rowsOf('size', SIZES)].join(',\n')};
${OF_REASON.map((table) => unguarded(table, turnColumn(table, 'reason'))).join('\n')}
${unguarded('fat_movement', turnColumn('fat_movement', 'note'))}
${unguarded('quote', turnList('quote', 'asked', 'adjustments', 'reason', 'reason'))}
${unguarded(
  'station_entry',
  `UPDATE station_entry SET answer = json_set(answer, '$.problem.with.reason', ${codeOf('reason', "answer ->> '$.problem.with.reason'")})
WHERE ${isOffered('reason', "answer ->> '$.problem.with.reason'")};`,
)}
${unguarded('instruction', turnList('instruction', 'body', 'primals', 'size', 'size'))}
${unguarded('draft', turnList('draft', 'instructions', 'primals', 'size', 'size'))}
${turnList('instruction_template', 'body', 'primals', 'size', 'size')}
DROP TABLE offered_word;
`;
