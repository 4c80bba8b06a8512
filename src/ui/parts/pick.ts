/** One of the finds of a `PickOne`. */
export interface PickOption {
  id: number | string;
  label: string;
  note?: string;
}
