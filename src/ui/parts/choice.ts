/** One of the answers of a `Choice`. */
export interface ChoiceOption<T extends string> {
  value: T;
  label: string;
  /** The key that picks it while the group has the focus; counted 1, 2, 3 … if left out. */
  key?: string;
  /** Second line, smaller. */
  note?: string;
  /** A part's colour as a bar on the left; the label still says which it is. */
  tone?: string;
}
