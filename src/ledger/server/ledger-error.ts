/** Why a ledger cannot be used. The window words each code. */
export type LedgerCode =
  /** Nothing answers at the address, or no more. */
  | 'unreachable'
  | 'not-postgres'
  | 'too-old'
  | 'no-tls'
  /** A certificate that nobody known vouches for, or that is past its day. */
  | 'certificate'
  /** A certificate of another name. */
  | 'certificate-name'
  | 'password'
  | 'no-database'
  /** The role may do less than a shop needs. */
  | 'no-rights'
  /** The role sees every shop's rows, whatever the rules of the tables say. */
  | 'bypasses'
  | 'not-prepared'
  /** A newer program prepared it. */
  | 'newer'
  /** Another role feeds a book of this identity. */
  | 'taken'
  /** The ledger has more of this book than the book itself. */
  | 'ahead'
  /** The ledger has another continuation of this book. */
  | 'fork'
  /** A newer branch of this book took its place. */
  | 'superseded'
  /** The ledger was set back to before what the book still knows. */
  | 'forgotten'
  /** The book is not logged. */
  | 'no-book'
  /** The ledger has no book that whoever asks may see. */
  | 'empty'
  /** What came back is no sound book. */
  | 'unsound'
  /** The server's disk is full. */
  | 'full'
  /** An older program prepared it: it lacks views, or has older ones. */
  | 'outdated'
  /** Somebody's own view is built on one that must be made anew. */
  | 'built-on'
  /** The login reads one shop only. */
  | 'one-shop'
  /** The server works on a report longer than is waited for. */
  | 'slow';

export class LedgerError extends Error {
  readonly code: LedgerCode;
  readonly detail: string;

  constructor(code: LedgerCode, detail = '') {
    super(detail === '' ? code : `${code}: ${detail}`);
    this.name = 'LedgerError';
    this.code = code;
    this.detail = detail;
  }
}

/** SQLSTATE codes of PostgreSQL's manual, appendix A. */
const STATES: Readonly<Record<string, LedgerCode>> = {
  '28P01': 'password',
  28000: 'password',
  '3D000': 'no-database',
  42501: 'no-rights',
  '3F000': 'not-prepared',
  '42P01': 'not-prepared',
  53100: 'full',
  '2BP01': 'built-on',
  // A server that says it is new enough and does not know the language of one is none.
  42601: 'not-postgres',
};

/** Codes of Node's `tls`, from OpenSSL's list of verification results. */
const CERTIFICATES: readonly string[] = [
  'CERT_HAS_EXPIRED',
  'CERT_NOT_YET_VALID',
  'CERT_SIGNATURE_FAILURE',
  'CERT_UNTRUSTED',
  'DEPTH_ZERO_SELF_SIGNED_CERT',
  'SELF_SIGNED_CERT_IN_CHAIN',
  'UNABLE_TO_GET_ISSUER_CERT',
  'UNABLE_TO_GET_ISSUER_CERT_LOCALLY',
  'UNABLE_TO_VERIFY_LEAF_SIGNATURE',
];

/** The reason of an error that a connection or a statement met; anything unknown is returned as it is. */
export function ledgerErrorOf(error: unknown): unknown {
  if (error instanceof LedgerError || !(error instanceof Error)) return error;
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  if (Object.hasOwn(STATES, code)) return new LedgerError(STATES[code] ?? 'unreachable', error.message);
  if (CERTIFICATES.includes(code)) return new LedgerError('certificate', code);
  if (code === 'ERR_TLS_CERT_ALTNAME_INVALID') return new LedgerError('certificate-name', error.message);
  if (/does not support SSL/.test(error.message)) return new LedgerError('no-tls');
  if (/password must be/.test(error.message)) return new LedgerError('password', error.message);
  if (
    /establishing an SSL connection|unexpected message|Unknown message|SASL|wrong version number/i.test(
      error.message,
    )
  )
    return new LedgerError('not-postgres', error.message);
  return isOfLine(error, code) ? new LedgerError('unreachable', code || error.message) : error;
}

/** The line broke, nobody answers, or the server is stopping, starting or restarted: worth trying again. */
function isOfLine(error: Error, code: string): boolean {
  return (
    /^(E(CONN|HOST|NET|PIPE|TIMEDOUT|AI_|NOTFOUND)|ENOTFOUND|57P0|08|53300|55P03|57014|25P0|40)/.test(code) ||
    /timeout|terminated|Connection (ended|closed)|not queryable|closed the connection|socket/i.test(
      error.message,
    )
  );
}
