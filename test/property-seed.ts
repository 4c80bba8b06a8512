import fc from 'fast-check';

// The same draws in every ordinary run, so that a red run means that a change broke something. In the mode `fuzz`
// (`npm run fuzz`) they are drawn anew each time, and what fails prints the seed to find it again with.
if (process.env.MODE !== 'fuzz') fc.configureGlobal({ seed: 20261126 });
