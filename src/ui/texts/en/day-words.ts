/** Words for days. Any longer prefix is accepted too: `t`, `tod`, `today`. */
export const dayWords = {
  today: 'today',
  yesterday: 'yesterday',
  tomorrow: 'tomorrow',
  months: [
    'january', 'february', 'march', 'april', 'may', 'june',
    'july', 'august', 'september', 'october', 'november', 'december',
  ],
} as const; // prettier-ignore
