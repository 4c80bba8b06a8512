/** A location-scale Student's t: location + scale × t, t with `degrees` degrees of freedom. */
export interface StudentT {
  readonly location: number;
  readonly scale: number;
  readonly degrees: number;
}
