import { spawn, type ChildProcess } from 'node:child_process';
import { join } from 'node:path';

const PROGRAM = join(import.meta.dirname, '../../out/main/serve.js');

/** The built program on a loopback address, as `npm start` runs it where there is no desktop. */
export interface Served {
  address: string;
  process: ChildProcess;
  /** Ends it the way given and waits until it is gone. */
  end(signal: 'SIGKILL' | 'SIGINT'): Promise<void>;
}

export async function serve(...args: string[]): Promise<Served> {
  const child = spawn(process.execPath, [PROGRAM, '--no-open', '--port', '0', ...args], {
    env: { ...process.env, TZ: 'America/Denver' },
  });
  let said = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => (said += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (said += text));
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', () => {
      const found = /http:\/\/127\.0\.0\.1:\d+\/#key=\S+/.exec(said);
      if (found) resolve(found[0]);
    });
    child.once('exit', (code) => reject(new Error(`The program ended with ${code}: ${said}`)));
  });
  return {
    address,
    process: child,
    end: (signal) =>
      new Promise((resolve) => {
        child.once('exit', () => resolve());
        child.kill(signal);
      }),
  };
}
