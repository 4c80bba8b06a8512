/** Sends the file of a photograph over a line that may break, as a station does before the entry that names it. */
import { request, type Agent } from 'node:https';
import { text } from 'node:stream/consumers';
import { digestOf } from '../../src/book/file/photos/files.ts';
import { pictureOnly } from '../../src/core/photo/jpeg.ts';
import { PATIENCE, type DeskPlace } from '../torture/line/station.ts';
import { photoOf } from '../photo-of.ts';

export interface Photo {
  digest: string;
  file: Uint8Array;
}

/** A small picture: another number, another picture. */
export function takePhoto(seed: number): Photo {
  const file = pictureOnly(photoOf(seed)).bytes;
  return { digest: digestOf(file), file };
}

/** Rejects unless the desk says that it has the file. */
export function putPhoto(
  place: DeskPlace,
  { digest, file }: Photo,
  secret: string,
  agent: Agent,
): Promise<void> {
  const sent = request({
    host: '127.0.0.1',
    port: place.port,
    ca: place.root,
    agent,
    method: 'PUT',
    path: `/photo/${digest}`,
    signal: AbortSignal.timeout(PATIENCE),
    headers: {
      host: place.host,
      origin: `https://${place.host}`,
      'content-type': 'image/jpeg',
      'content-length': file.length,
      authorization: `Bearer ${secret}`,
    },
  });
  return new Promise((resolve, reject) => {
    sent.on('error', reject);
    sent.on('response', (response) => {
      text(response).then((whole) => {
        if (response.statusCode === 200 && (JSON.parse(whole) as { ok: boolean }).ok) resolve();
        else reject(new Error(`${response.statusCode} ${whole}`));
      }, reject);
    });
    sent.end(file);
  });
}
