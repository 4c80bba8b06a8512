/** What the figures of RESULTS.md mean. */
export function introduction(run: {
  at: string;
  machine: string;
  versions: Record<string, string>;
  commit: string;
  seasons: number;
  slowedBy: number;
  rounds: number;
  slowMs: number;
}): string {
  return `# What a hand waits for

Printed by \`npm run window\` on ${run.at.slice(0, 10)}, ${run.machine}, Node ${run.versions.node}, commit ${run.commit}: the book of ${run.seasons} ${run.seasons === 1 ? 'season' : 'seasons'} × about 5,000
animals, served by the built program to Chromium, whose processor is slowed ${run.slowedBy} times while a hand waits. ${run.rounds} rounds of each, after one that is not counted.${run.slowMs > 0 ? `\n**Each key blocks the page for ${run.slowMs} ms on purpose.**` : ''}

- **answer**: median time from the key event to the frame after the one that painted the answer, by the clock of the page. Once a frame begins with the
  answer in the page, the next frame is awaited: the time is never too short, and at most one frame (17 ms) too long.
- **next paint**: from the key to the next frame of any content (Event Timing, in steps of 8 ms).
- **desk**: from the request of each call to the first byte of its answer, summed, on a processor that is not slowed.
- **calls**: the calls of one key until the page rests.
- **long tasks**: how many tasks of the page take more than 50 ms, and the longest of all rounds.
- **shift**: sum of the layout shift scores, those right after the key included.
- **thread**: processor time of the page's main thread until it rests, slowed as it is, the frames that look for the answer included.

A view of the Season is opened for the first time after a weight of the season was saved, and answers once its words and the charts in sight are drawn.
A place is opened from an animal at the Table. The window wants no motion.`;
}
