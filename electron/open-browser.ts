import { spawn } from 'node:child_process';
import { withUsualMask } from './private-files.ts';

interface BrowserCommand {
  command: string;
  args: string[];
  /** Text for its standard input. */
  input: string;
}

/**
 * The command that opens an address in the default browser, by system. On macOS every account can see the arguments
 * of programs, so the address goes through standard input; on Windows only the account itself can; on Linux the
 * server checks the owner of the socket (`other-account.ts`).
 */
export function browserCommand(platform: NodeJS.Platform, address: string): BrowserCommand {
  if (platform === 'darwin') return { command: 'osascript', args: [], input: `open location "${address}"` };
  if (platform === 'win32')
    return { command: 'rundll32', args: ['url.dll,FileProtocolHandler', address], input: '' };
  return { command: 'xdg-open', args: [address], input: '' };
}

/** Tries to open `address`. A failure is no error, because the address is printed as well. */
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
