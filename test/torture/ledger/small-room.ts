/** Takes the server's room away: its tables lie on a disk that another file fills, until that file is gone. */
import { chownSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { smallDisk } from '../../book/small-disk.ts';
import { OWNER, SUPERUSER, type RealServer } from '../../ledger/server/real-server.ts';
import type { Tally } from '../tally.ts';

const ROOM_KB = 60_000;
/** Who the server runs as where the tests run as root. */
const NOBODY = 65534;

interface Place {
  server: RealServer;
  database: string;
}

/** One table moves onto the small disk while it is filled, and back. Where no disk can be made, the round counts as not whole. */
export async function smallRoom(
  { server, database }: Place,
  amid: () => Promise<void>,
  counted: Tally,
): Promise<void> {
  const disk = smallDisk(ROOM_KB);
  if (!disk) {
    counted.wrong += 1;
    counted.notes.push('this computer lets us make no small disk');
    return;
  }
  const superuser = await server.as(database, SUPERUSER);
  const move = async (to: string): Promise<void> => {
    for (const table of ['weighing', 'animal_sum', 'audit']) {
      await superuser.script(`ALTER TABLE ledger.${table} SET TABLESPACE ${to}`);
    }
  };
  try {
    if (process.getuid?.() === 0) chownSync(disk.path, NOBODY, NOBODY);
    await superuser.script(`CREATE TABLESPACE small LOCATION '${disk.path}'`);
    await superuser.script(`GRANT CREATE ON TABLESPACE small TO ${OWNER}`);
    await move('small');
    fill(join(disk.path, 'filled'));
    await amid();
    await amid();
    rmSync(join(disk.path, 'filled'));
    await move('pg_default');
    await superuser.script('DROP TABLESPACE small');
  } finally {
    await superuser.end();
    disk.remove();
  }
}

/** Leaves not one page free. */
function fill(path: string): void {
  for (let kilobytes = ROOM_KB; kilobytes >= 4; kilobytes = Math.floor(kilobytes / 2)) {
    try {
      for (;;) writeFileSync(path, Buffer.alloc(kilobytes * 1024), { flag: 'a' });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
    }
  }
}
