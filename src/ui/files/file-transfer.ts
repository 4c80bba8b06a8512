/** Transfers files between the window and the desk in chunks that every carrier accepts. */
import type { Answer, CallOutput } from '../../bridge/contract.ts';
import { call } from '../link/bridge.ts';
import { saveFile } from './save-file.ts';

const PIECE_BYTES = 500_000;
const CHUNK_BYTES = 0x8000;

/** Uploads a file to the desk; its id there, or the problem. */
export async function uploadFile(file: File): Promise<Answer<CallOutput<'import.begin'>>> {
  const begun = await call('import.begin', { name: file.name || 'table' });
  if (!begun.ok) return begun;
  for (let from = 0; from < file.size; from += PIECE_BYTES) {
    const bytes = new Uint8Array(await file.slice(from, from + PIECE_BYTES).arrayBuffer());
    const done = await call('import.addPiece', { upload: begun.value.upload, from, base64: toBase64(bytes) });
    if (!done.ok) return done;
  }
  return begun;
}

/** Downloads an export of the desk, and offers it as a file. */
export async function downloadExport(download: {
  id: number;
  name: string;
}): Promise<Answer<{ bytes: number }>> {
  const pieces: Blob[] = [];
  let from = 0;
  for (let last = false; !last;) {
    const answer = await call('export.getPiece', { id: download.id, from });
    if (!answer.ok) return answer;
    const bytes = Uint8Array.from(atob(answer.value.base64), (letter) => letter.charCodeAt(0));
    pieces.push(new Blob([bytes]));
    from += bytes.length;
    last = answer.value.last;
  }
  saveFile(new Blob(pieces, { type: 'application/octet-stream' }), download.name);
  return { ok: true, value: { bytes: from } };
}

export function toBase64(bytes: Uint8Array): string {
  let letters = '';
  for (let at = 0; at < bytes.length; at += CHUNK_BYTES)
    letters += String.fromCharCode(...bytes.subarray(at, at + CHUNK_BYTES));
  return btoa(letters);
}
