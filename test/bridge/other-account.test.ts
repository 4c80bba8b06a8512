/** A code that another account reads from the list of processes is useless to it. */
import { execFile } from 'node:child_process';
import { expect, it, vi } from 'vitest';
import { accountIn, isAllowedAccount } from '../../src/bridge/server/other-account.ts';
import { openCounter } from './counter.ts';

/** Rows as the kernel writes them (documentation of proc_net_tcp); ports 40000 and 4747, accounts 1000 and 1001. */
const TABLE = `  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode
   0: 0100007F:128B 00000000:0000 0A 00000000:00000000 00:00000000 00000000  1000        0 11 1 0 100 0 0 10 0
   1: 0100007F:128B 0100007F:9C40 01 00000000:00000000 00:00000000 00000000  1000        0 12 1 0 20 4 30 10 -1
   2: 0200007F:9C40 0100007F:128B 01 00000000:00000000 00:00000000 00000000  1000        0 13 1 0 20 4 30 10 -1
   3: 0100007F:9C40 0100007F:128B 01 00000000:00000000 00:00000000 00000000  1001        0 14 1 0 20 4 30 10 -1
`;
const TABLE_6 = `  sl  local_address                         remote_address                        st
   0: 0000000000000000FFFF00000100007F:9C40 0000000000000000FFFF00000100007F:128B 01 00000000:00000000 00:00000000 00000000  1002        0 15 1
`;

it("finds the owner of the peer's socket by its address and port", () => {
  const ends = { address: '127.0.0.1', port: 40_000, ourPort: 4747 };
  expect(accountIn(TABLE, ends)).toBe(1001);
  expect(accountIn(TABLE, { ...ends, address: '127.0.0.2' })).toBe(1000);
  expect(accountIn(TABLE_6, ends)).toBe(1002);
  expect(accountIn(TABLE, { ...ends, port: 40_001 })).toBeNull();
  expect(accountIn('', ends)).toBeNull();
});

it.each([
  [1000, 1000, undefined, true],
  [1001, 1000, undefined, false],
  [0, 1000, undefined, true],
  [1000, 0, undefined, false],
  [1000, 0, '1000', true],
  [1001, 0, '1000', false],
])('account %i at a desk of %i, which was started through sudo by %s: %s', (account, ours, sudo, may) => {
  expect(isAllowedAccount(account, ours, sudo)).toBe(may);
});

it.runIf(process.platform === 'linux' && process.getuid?.() === 0)(
  'rejects another account with a valid code, and then accepts the right one with it',
  async () => {
    const counter = await openCounter();
    const said = vi.spyOn(console, 'error').mockReturnValue();
    const code = counter.code();
    const body = JSON.stringify({ code });
    const script = `exec 3<>/dev/tcp/127.0.0.1/${counter.carrier.port}; printf '%s' "$REQUEST" >&3; timeout 3 cat <&3`;
    const head = `POST /session HTTP/1.1\r\nhost: 127.0.0.1:${counter.carrier.port}\r\ncontent-type: application/json\r\ncontent-length: ${body.length}\r\nconnection: close\r\n\r\n`;
    const ask = await new Promise<string>((resolve) => {
      const as = { uid: 65_534, gid: 65_534, env: { PATH: '/usr/bin:/bin', REQUEST: head + body } };
      execFile('bash', ['-c', script], as, (_error, out) => resolve(out));
    });
    expect(ask).toContain('session.other-account');
    expect(ask).toMatch(/^HTTP\/1\.1 403/);
    expect(String(said.mock.calls)).toContain('Another account');
    said.mockRestore();
    const response = await fetch(`${counter.origin}/session`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body,
    });
    expect(response.status).toBe(200);
    await counter.close();
  },
);
