const NAMES = ['TMPDIR', 'TEMP', 'TMP'] as const;

/** Does `work` with another folder for temporary files. */
export async function withTemporary<T>(folder: string, work: () => Promise<T>): Promise<T> {
  const before = NAMES.map((name) => process.env[name]);
  for (const name of NAMES) process.env[name] = folder;
  try {
    return await work();
  } finally {
    NAMES.forEach((name, i) => {
      if (before[i] === undefined) delete process.env[name];
      else process.env[name] = before[i];
    });
  }
}
