import type Database from 'better-sqlite3';

/** An open connection to a book. */
export type Db = Database.Database;
