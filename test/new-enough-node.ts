import { nodeSentence } from '../electron/start/node.mjs';

/** Runs before any test: a Node that is too old gets a sentence, not a crashed test runner. */
export function setup(): void {
  const missing = nodeSentence(process.versions) || typesSentence();
  if (!missing) return;
  console.error(missing);
  process.exit(1);
}

/** Several tests start a second Node with one of our TypeScript files, which the program itself never does. */
function typesSentence(): string {
  if (process.features.typescript) return '';
  return `The tests need Node 22.18 or newer, which runs TypeScript as it is, and this is ${process.versions.node}.`;
}
