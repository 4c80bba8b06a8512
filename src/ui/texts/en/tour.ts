/** Texts of the five stops of the demo tour. */
export const tourText = {
  name: 'Tour of the demo season',
  step: (at: number, of: number) => `Stop ${at} of ${of}`,
  next: 'Next',
  back: 'Back',
  skip: 'Leave the tour',
  done: 'Done',
  here: 'Show me the place',
  left: 'The tour waits under ?',
  start: 'Show me around',
  goOn: (at: number, of: number) => `Go on with the tour, stop ${at} of ${of}`,
  stops: [
    {
      title: 'What hangs, and what to cut next',
      says: 'Every hook is an animal with its ticket and its days. Here stands which one comes off the rail now and why: past its limit, promised, or small and soon done.',
    },
    {
      title: 'A weight that does not add up',
      says: 'What is cut from an animal cannot weigh more than the animal. Every part is held against the whole, and what does not fit is asked about, mostly with the slip that was made. The answer is yours: nothing is changed by itself.',
    },
    {
      title: 'Exactly how much fat',
      says: 'Pick whose trim is ground, which fat, and how fat it shall be. The figures say what to put on the scale. The meat has some fat of its own, and that is counted.',
    },
    {
      title: 'A quote while the phone is at your ear',
      says: 'One weight is enough. Read this sentence out: take-home and price, each with the range that fits what this shop has weighed before.',
    },
    {
      title: 'What the season gave',
      says: 'Every weight of the season, put together: what each kind of game gave and how far animals differ. The record book for the inspector writes itself beside it, under Books.',
    },
  ],
} as const;
