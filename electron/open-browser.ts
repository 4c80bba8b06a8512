import { spawn } from 'node:child_process';
import { withUsualMask } from './private-files.ts';

/** The command that opens an address in the person's browser, per system. */
export function browserCommand(platform: NodeJS.Platform, address: string): [string, string[]] {
  if (platform === 'darwin') return ['open', [address]];
  if (platform === 'win32') return ['rundll32', ['url.dll,FileProtocolHandler', address]];
  return ['xdg-open', [address]];
}

/** Tries to open `address`. Where it does not work the printed address is the way, so a failure is no error. */
export function openBrowser(address: string): void {
  const [command, args] = browserCommand(process.platform, address);
  const child = withUsualMask(() => spawn(command, args, { stdio: 'ignore', detached: true }));
  child.on('error', () => child.unref());
  child.unref();
}
