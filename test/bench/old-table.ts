/** A table as a shop's old program may have saved it, and the way that a window hands one over. */
import type { CallInput, CallName, CallOutput } from '../../src/bridge/contract.ts';

/** Calls the desk, wherever it runs. */
export type Line = <N extends CallName>(name: N, input: CallInput<N>) => Promise<CallOutput<N>>;

export const OLD_ROWS = 100_000;
const PIECE = 300_000;

/** Animals one a row: ten columns, ten seasons, twenty thousand hunters. */
export function oldTable(): string {
  const lines = ['No,Date,Customer,Phone,Species,Brought as,Sex,Hanging,Take home,Notes'];
  for (let i = 0; i < OLD_ROWS; i++) {
    const hanging = 60 + (i % 400) / 10;
    const day = `${2014 + (i % 10)}-11-${String((i % 28) + 1).padStart(2, '0')}`;
    lines.push(
      `${i},${day},Hunter ${i % 20_000},307-555-${i % 20_000},mule deer,skinned,${i % 2 ? 'buck' : 'doe'},${hanging},${(hanging * 0.55).toFixed(1)},"as, usual"`,
    );
  }
  return lines.join('\r\n');
}

/** Hands a table over, lets the desk guess how it is read, and gives what is needed to bring it in. */
export async function handOver(call: Line, table: string): Promise<CallInput<'import.run'>> {
  const bytes = Buffer.from(table);
  const { upload } = await call('import.begin', { name: 'old.csv' });
  for (let from = 0; from < bytes.length; from += PIECE)
    await call('import.addPiece', {
      upload,
      from,
      base64: bytes.subarray(from, from + PIECE).toString('base64'),
    });
  const { layout } = await call('import.preview', { upload, kind: 'animals' });
  return { upload, kind: 'animals', layout, confirmed: true };
}
