/** Texts around every chart. */
export const seasonText = {
  toIntake: 'Check in an animal',
  sources: 'Where this was published',
  saveAsPicture: 'Save as picture',
  saveAsTable: 'Save as table (CSV)',
  tableBehind: 'The figures behind this',
};
