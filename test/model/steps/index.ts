/** Everything that happens in a history, each by the name that a printed history gives it. */
import type { Step } from '../step.ts';
import * as belongings from './belongings.ts';
import * as fat from './fat.ts';
import * as files from './files.ts';
import * as grinder from './grinder.ts';
import * as holds from './holds.ts';
import * as intake from './intake.ts';
import * as leaving from './leaving.ts';
import * as loads from './loads.ts';
import * as made from './made.ts';
import * as money from './money.ts';
import * as move from './move.ts';
import * as quotes from './quotes.ts';
import * as reading from './reading.ts';
import * as recipes from './recipes.ts';
import * as records from './records.ts';
import * as sausage from './sausage.ts';
import * as sharedBatch from './shared-batch.ts';
import * as shares from './shares.ts';
import * as shopRoom from './shop-room.ts';
import * as table from './table.ts';
import * as world from './world.ts';

const modules = {
  belongings,
  fat,
  files,
  grinder,
  holds,
  intake,
  leaving,
  loads,
  made,
  money,
  move,
  quotes,
  reading,
  recipes,
  records,
  sausage,
  sharedBatch,
  shares,
  shopRoom,
  table,
  world,
};

const isStep = (found: unknown): found is Step =>
  typeof found === 'object' && found !== null && 'draw' in found;

export const STEPS: ReadonlyMap<string, Step> = new Map(
  Object.entries(modules).flatMap(([, module]) =>
    Object.entries(module).filter((entry): entry is [string, Step] => isStep(entry[1])),
  ),
);
