/** The ledger's threads: one feeds a book, one makes a book from the ledger. */
import { parentPort, workerData } from 'node:worker_threads';
import { feedInThread } from './feed/in-thread.ts';
import type { ThreadData } from './feed/thread.ts';
import { rebuildInThread } from './rebuild/in-thread.ts';
import type { RebuildData } from './rebuild/thread.ts';

type Data = ({ job: 'feed' } & ThreadData) | ({ job: 'rebuild' } & RebuildData);

const desk = parentPort;
const data = workerData as Data;
if (desk && data.job === 'feed') feedInThread(data, desk);
else if (desk && data.job === 'rebuild') void rebuildInThread(data, (message) => desk.postMessage(message));
