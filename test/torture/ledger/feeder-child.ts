/** A feeder to be killed: `node feeder-child.ts BOOK PORT DATABASE BRANCH` feeds a book, and writes each state as a line. */
import { writeSync } from 'node:fs';
import { startFeeder } from '../../../src/ledger/feed/feeder.ts';
import { connect } from '../../../src/ledger/server/connect.ts';
import { OWNER, PASSWORD } from '../../ledger/server/real-server.ts';
import { identityAt, QUICK } from '../../ledger/feeding.ts';

const [bookPath = '', port = '', database = '', branch = '1'] = process.argv.slice(2);
const say = (said: object): void => void writeSync(1, `${JSON.stringify(said)}\n`);

startFeeder({
  bookPath,
  branch: { book: identityAt(bookPath), branch: Number(branch) },
  name: 'Torture',
  privacy: { personal: true, known: [] },
  // Small batches: a kill or a cut hits amid many.
  size: { changes: 30, bytes: 100_000 },
  pace: QUICK,
  connect: () =>
    connect(
      { host: '127.0.0.1', port: Number(port), database, user: OWNER, tls: 'none', ca: null },
      PASSWORD,
    ),
  onState: say,
  onBroken: (error) => say({ kind: 'broken', error: String(error) }),
});
