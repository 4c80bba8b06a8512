import type { CallInput, LedgerSettings } from '../../bridge/contract.ts';

/** A ledger as its form has it. */
export interface LedgerForm {
  host: string;
  port: string;
  database: string;
  user: string;
  /** Empty: the one that is kept. */
  password: string;
  /** Without encryption. */
  plain: boolean;
  ca: string | null;
  personal: boolean;
}

/** Fields that show their own problem. */
export const LEDGER_FIELDS = ['host', 'port', 'database', 'user', 'password', 'ca'];

/** PostgreSQL's own port. */
const USUAL_PORT = '5432';

export function formOf(settings: LedgerSettings | null): LedgerForm {
  if (!settings)
    return {
      host: '', port: USUAL_PORT, database: '', user: '', password: '', plain: false, ca: null, personal: false,
    }; // prettier-ignore
  const { host, port, database, user, tls, ca, personal } = settings;
  return { host, port: String(port), database, user, password: '', plain: tls === 'none', ca, personal };
}

/** What the desk needs to reach the ledger; it refuses a port that is no number. */
export function accessOf({ port, password, plain, ...rest }: LedgerForm): CallInput<'ledger.tryIt'> {
  const { host, database, user, ca } = rest;
  return {
    host, database, user, ca,
    port: /^\d+$/.test(port.trim()) ? Number(port) : 0,
    tls: plain ? 'none' : 'verified',
    ...(password === '' ? {} : { password }),
  }; // prettier-ignore
}
