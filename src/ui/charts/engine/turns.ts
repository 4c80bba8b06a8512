// No state of a page: only whose turn it is to draw.
// eslint-disable-next-line no-restricted-syntax
let turn: Promise<void> = Promise.resolve();

/** Charts are drawn one after the other, so that a page of many answers between them. */
export function myTurn(): Promise<void> {
  turn = turn.then(() => new Promise((done) => setTimeout(done)));
  return turn;
}
