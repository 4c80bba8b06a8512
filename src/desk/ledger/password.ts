/** The password of the shop's own login. */
import { secretFile } from './secret-file.ts';

const file = secretFile('ledger password');

export const keptPassword = file.kept;
export const keepPassword = file.keep;
export const forgetPassword = file.forget;
