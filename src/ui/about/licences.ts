/** One licence and the packages under it, as the build lists them. */
export interface Licence {
  licence: string;
  text: string;
  packages: { name: string; version: string }[];
}

/** The list that was made when the program was built; null when it is not there. */
export async function readLicences(): Promise<Licence[] | null> {
  try {
    const response = await fetch('./licences.json');
    return response.ok ? ((await response.json()) as Licence[]) : null;
  } catch {
    return null; // the page says so
  }
}
