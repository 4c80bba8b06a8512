/** Fewer animals than this say little of what is usual, and every chart says so. Common practice, no source. */
export const FEW = 5;
