/**
 * How thoroughly the animal of a running number is weighed: the first of a season and every `every`-th after it in
 * detail, the others quickly, hanging weight and packages only.
 * @example detailFor(11, 10) // 'detailed'; detailFor(12, 10) is 'quick'
 */
export function detailFor(number: number, every: number): 'detailed' | 'quick' {
  return (number - 1) % every === 0 ? 'detailed' : 'quick';
}
