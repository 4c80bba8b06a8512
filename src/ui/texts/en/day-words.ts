/** Words that a day may be typed in. Longer forms of a word begin with it: `t`, `tod`, `today`. */
export const dayWords = {
  today: 'today',
  yesterday: 'yesterday',
  tomorrow: 'tomorrow',
  months: [
    'january', 'february', 'march', 'april', 'may', 'june',
    'july', 'august', 'september', 'october', 'november', 'december',
  ],
} as const; // prettier-ignore
