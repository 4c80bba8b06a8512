/** Width of a chart on paper, in CSS pixels: what a card has between the margins of A4 and of Letter. */
export const PAPER_WIDTH = 640;
/** Dots to a pixel on paper: 96 pixels to the inch make 288 dots. */
export const PAPER_RATIO = 3;
