/** Languages of catalogues on trial, in place of the program's: one is a draft, whichever of the program's are. */
export const SOURCE_LANGUAGE = 'en-US';

export const languages = {
  'en-US': { name: 'English (United States)' },
  'en-CA': { name: 'English (Canada)', over: 'en-US' },
  'es-MX': { name: 'Español (México)', draft: true },
  qps: { name: '[Þšéûðö]', generated: true },
};

export const languageLines: Readonly<
  Record<string, { name: string; over?: string; draft?: boolean; generated?: boolean }>
> = languages;
