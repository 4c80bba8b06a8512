/** A line for each test file when it has ended. */
import { relative } from 'node:path';

/** @implements {import('vitest/node').Reporter} */
export default class EachFile {
  /** @param {import('vitest/node').TestModule} file */
  onTestModuleEnd(file) {
    const tests = [...file.children.allTests()].length;
    const seconds = (file.diagnostic().duration / 1000).toFixed(1);
    console.log(`${file.ok() ? '✓' : '✗'} ${relative(process.cwd(), file.moduleId)} (${tests}) ${seconds} s`);
  }
}
