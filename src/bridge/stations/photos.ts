/** Photographs over the line for stations: `PUT` and `GET /photo/<SHA-256 of the file>`. */
import type { FastifyInstance, FastifyRequest, onRequestAsyncHookHandler } from 'fastify';
import type { StationDoor } from '../../desk/contract/stations.ts';
import { MAX_PHOTO_BYTES } from '../../trade/photo.ts';
import { RefusedRequest } from '../server/refusal.ts';
import { pathOf } from '../server/sender.ts';

const PHOTO = '/photo/';
const JPEG = 'image/jpeg';
const DIGEST = /^[0-9a-f]{64}$/;
/** Whatever a file turns out to be, it is shown as a picture or not at all, and can do nothing. */
const PICTURE_HEADERS: Readonly<Record<string, string>> = {
  'content-type': JPEG,
  'content-security-policy': "default-src 'none'; sandbox",
  'content-disposition': 'inline; filename="photo.jpg"',
};

export interface PhotoRoutes {
  door: Pick<StationDoor, 'storePhoto' | 'photo'>;
  /** Lets a station in by its secret, before any of the body is read. */
  onRequest: onRequestAsyncHookHandler;
  secretOf(request: FastifyRequest): string;
}

export function addPhotoRoutes(app: FastifyInstance, { door, onRequest, secretOf }: PhotoRoutes): void {
  app.addContentTypeParser(
    JPEG,
    { parseAs: 'buffer', bodyLimit: MAX_PHOTO_BYTES },
    async (_: unknown, body: Buffer) => body,
  );

  app.put(`${PHOTO}*`, { onRequest, bodyLimit: MAX_PHOTO_BYTES }, async (request) => {
    const digest = digestIn(request);
    if (!Buffer.isBuffer(request.body)) throw new RefusedRequest(415, 'invalid', 'photo.no-picture');
    return door.storePhoto(secretOf(request), digest, request.body);
  });

  app.get(`${PHOTO}*`, { onRequest }, async (request, reply) => {
    const file = await door.photo(secretOf(request), digestIn(request));
    if (file === null) throw new RefusedRequest(404, 'missing', 'photo.unknown');
    return reply.headers({ ...reply.getHeaders(), ...PICTURE_HEADERS }).send(file);
  });
}

/** @throws RefusedRequest 404 for any other name: none leads to a file */
function digestIn({ raw }: FastifyRequest): string {
  const digest = pathOf(raw).slice(PHOTO.length);
  if (!DIGEST.test(digest)) throw new RefusedRequest(404, 'missing', 'photo.unknown');
  return digest;
}
