/** How the switches of a packed program stand that are burnt into it. */
import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';

/** Source: electron/docs/tutorial/fuses.md: the sentinel, one byte of version, one of length, then one of each fuse. */
export const SENTINEL = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';

/**
 * As we set them, in the order of @electron/fuses' FuseV1Options: run as Node, cookie encryption, NODE_OPTIONS, inspect
 * switches, archive integrity, only from the archive, own snapshot, file scheme's rights, WebAssembly traps.
 */
export const SHIPPED_FUSES = '000011001';

/** How each fuse stands in a program, in the order of the runtime: `1` on, `0` off. */
export function fusesOf(program: string): string {
  const content = readFileSync(fileWithFuses(program));
  const sentinel = content.indexOf(SENTINEL);
  if (sentinel < 0) throw new Error(`${program} holds no fuses.`);
  const at = sentinel + SENTINEL.length;
  return content.subarray(at + 2, at + 2 + (content[at + 1] ?? 0)).toString();
}

/** On macOS the program itself is a small starter: the fuses are in the framework beside it. */
function fileWithFuses(program: string): string {
  const framework = resolve(program, '../../Frameworks/Electron Framework.framework/Electron Framework');
  return existsSync(framework) ? framework : program;
}
