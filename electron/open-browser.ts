import { spawn } from 'node:child_process';
import { withUsualMask } from './private-files.ts';

interface BrowserCommand {
  command: string;
  args: string[];
  /** What it reads from its input. */
  input: string;
}

/**
 * The command that opens an address in the person's browser, per system. On macOS everybody sees the arguments of
 * programs, so the address goes through the input; on Windows only the account itself sees them; on Linux the server
 * asks whose window it is (`other-account.ts`).
 */
export function browserCommand(platform: NodeJS.Platform, address: string): BrowserCommand {
  if (platform === 'darwin') return { command: 'osascript', args: [], input: `open location "${address}"` };
  if (platform === 'win32')
    return { command: 'rundll32', args: ['url.dll,FileProtocolHandler', address], input: '' };
  return { command: 'xdg-open', args: [address], input: '' };
}

/** Tries to open `address`. Where it does not work the printed address is the way, so a failure is no error. */
export function openBrowser(address: string): void {
  const { command, args, input } = browserCommand(process.platform, address);
  const child = withUsualMask(() =>
    spawn(command, args, { stdio: ['pipe', 'ignore', 'ignore'], detached: true }),
  );
  child.on('error', () => child.unref());
  child.stdin?.on('error', () => child.unref());
  child.stdin?.end(input);
  child.unref();
}
