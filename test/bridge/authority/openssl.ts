/** OpenSSL as an outside judge of our certificates: the library inside Node, and its own program where it is installed. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { isIP, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { checkServerIdentity, connect, createServer, type ConnectionOptions } from 'node:tls';

export const hasOpenssl = spawnSync('openssl', ['version']).status === 0;

/** What `openssl ARGUMENTS` says, errors included. */
export function openssl(...words: string[]): string {
  const { stdout, stderr } = spawnSync('openssl', words, { encoding: 'utf8' });
  return stdout + stderr;
}

/** Writes certificates to files of their own, for the program. */
export function filesOf(texts: Record<string, string>): Record<string, string> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-certificates-'));
  return Object.fromEntries(
    Object.entries(texts).map(([name, text]) => {
      const path = join(folder, `${name}.pem`);
      writeFileSync(path, text);
      return [name, path];
    }),
  );
}

/**
 * Shakes hands as a device that trusts `root` and wants to reach `host`.
 * @returns 'trusted', or code and words of the refusal
 */
export async function shakeHands(
  { key, cert, root }: { key: string; cert: string; root: string },
  host: string,
  more: ConnectionOptions = {},
): Promise<string> {
  const server = createServer({ key, cert });
  server.on('tlsClientError', () => undefined); // the client hangs up, which is being tested
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  try {
    return await new Promise((resolve) => {
      const line = connect({ port, host: '127.0.0.1', ca: root, ...namedBy(host), ...more }, () => {
        resolve('trusted');
        line.destroy();
      });
      line.on('error', (error: NodeJS.ErrnoException) => resolve(`${error.code} ${error.message}`));
    });
  } finally {
    server.close();
  }
}

/** An address is never sent as a server name (RFC 6066), but compared all the same. */
function namedBy(host: string): ConnectionOptions {
  return isIP(host) === 0
    ? { servername: host }
    : { checkServerIdentity: (_name, shown) => checkServerIdentity(host, shown) };
}
