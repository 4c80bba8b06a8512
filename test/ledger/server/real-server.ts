/** A real PostgreSQL for tests, in a folder of its own, on a free port of the loopback address. */
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { appendFileSync, chownSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect, type LedgerAddress } from '../../../src/ledger/server/connect.ts';
import type { Server } from '../../../src/ledger/server/server.ts';
import { binaries } from './binaries.ts';

export const OWNER = 'owner';
export const SUPERUSER = 'postgres';
export const PASSWORD = 'a password with spaces and ü';

export interface RealServer {
  port: number;
  /** Where a database of it is, without encryption unless said otherwise. */
  address(database: string, user: string, more?: Partial<LedgerAddress>): LedgerAddress;
  /** An empty database that the role `owner` owns, who is no superuser. */
  newDatabase(): Promise<string>;
  as(database: string, user: string, more?: Partial<LedgerAddress>): Promise<Server>;
  /** Kills it at once, as a power cut. */
  kill(): Promise<void>;
  start(): Promise<void>;
  /** Copies its files while it is stopped, and puts them back. */
  keep(): void;
  backToKept(): void;
  remove(): Promise<void>;
}

/** PostgreSQL refuses to run as root. Nobody owns nothing, so it can harm nothing. */
const NOBODY = { uid: 65534, gid: 65534 };
const asNobody = process.getuid?.() === 0 ? NOBODY : {};

export interface RealOptions {
  /** As PEM; without it the server knows no encryption. */
  tls?: { key: string; cert: string };
  /** Told of each process, for whoever ends it should this one be killed. */
  onStarted?: (pid: number | undefined) => void;
}

export async function startServer(options: RealOptions = {}): Promise<RealServer> {
  const { initdb, postgres } = binaries();
  const home = mkdtempSync(join(tmpdir(), 'gambrel-server-'));
  own(home);
  const data = join(home, 'data');
  const secret = join(home, 'password');
  writeFileSync(secret, PASSWORD);
  own(secret);
  execFileSync(
    initdb,
    [
      '-D',
      data,
      '-U',
      SUPERUSER,
      '-A',
      'scram-sha-256',
      `--pwfile=${secret}`,
      '-E',
      'UTF8',
      '--locale=C',
      '-N',
    ],
    { ...asNobody, stdio: 'pipe', env: { PATH: process.env.PATH, TZ: 'UTC' } },
  );
  const port = await freePort();
  appendFileSync(
    join(data, 'postgresql.conf'),
    `\nport = ${port}\nlisten_addresses = '127.0.0.1'\nunix_socket_directories = ''\nfsync = off\nsynchronous_commit = on
max_wal_size = '2GB'\nshared_buffers = '64MB'\nmax_connections = 40\nlog_min_messages = fatal\n`,
  );
  if (options.tls) {
    for (const [name, text] of Object.entries({
      'server.key': options.tls.key,
      'server.crt': options.tls.cert,
    })) {
      writeFileSync(join(data, name), text, { mode: 0o600 });
      own(join(data, name));
    }
    appendFileSync(join(data, 'postgresql.conf'), 'ssl = on\n');
  }
  let running: ChildProcess | null = null;
  let databases = 0;

  const address: RealServer['address'] = (database, user, more) => ({
    host: '127.0.0.1', port, database, user, tls: 'none', ca: null, ...more,
  }); // prettier-ignore
  async function start(): Promise<void> {
    const child = spawn(postgres, ['-D', data], {
      ...asNobody,
      stdio: 'ignore',
      env: { PATH: process.env.PATH, TZ: 'UTC' },
    });
    running = child;
    options.onStarted?.(child.pid);
    process.once('exit', () => child.kill('SIGKILL'));
    for (let tries = 0; ; tries++) {
      try {
        const server = await connect(address('postgres', SUPERUSER), PASSWORD);
        await server.end();
        return;
      } catch (error) {
        if (tries > 200 || child.exitCode !== null) throw error;
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
    }
  }
  async function stop(signal: NodeJS.Signals): Promise<void> {
    const child = running;
    running = null;
    if (!child || child.exitCode !== null) return;
    const ended = new Promise((resolve) => child.once('exit', resolve));
    child.kill(signal);
    await ended;
  }
  const as: RealServer['as'] = (database, user, more) => connect(address(database, user, more), PASSWORD);

  await start();
  const superuser = await as('postgres', SUPERUSER);
  await superuser.script(`CREATE ROLE ${OWNER} LOGIN CREATEROLE PASSWORD '${PASSWORD}'`);
  await superuser.end();
  return {
    port,
    address,
    as,
    async newDatabase() {
      const name = `ledger_${++databases}`;
      const server = await as('postgres', SUPERUSER);
      await server.script(`CREATE DATABASE ${name} OWNER ${OWNER}`);
      await server.end();
      return name;
    },
    kill: () => stop('SIGQUIT'),
    start,
    keep: () => copy(data, `${data}.kept`),
    backToKept: () => copy(`${data}.kept`, data),
    async remove() {
      await stop('SIGQUIT');
      rmSync(home, { recursive: true, force: true });
    },
  };
}

function own(path: string): void {
  if ('uid' in asNobody) chownSync(path, NOBODY.uid, NOBODY.gid);
}

function copy(from: string, to: string): void {
  rmSync(to, { recursive: true, force: true });
  execFileSync('cp', ['-a', from, to]);
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const at = server.address();
      server.close(() => resolve(typeof at === 'object' && at ? at.port : 0));
    });
  });
}
