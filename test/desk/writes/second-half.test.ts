import { describeWrites } from './of-all-writes.ts';
import { WRITING } from './trail.ts';

describeWrites(WRITING.filter((_, i) => i % 2 === 1));
