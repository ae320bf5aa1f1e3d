// Sums up what the steps of ./test left in a folder and exits 1 unless all of it passed.
//
// `steps` has a line "name status seconds" for each step. A step's tests are counted from what its runner wrote:
// NAME.xml (JUnit, by ctest), NAME.json (by vitest), NAME.count ("passed x" or "failed x" lines). A step without any
// of these is itself one test. A step that exited with an error though its runner counted no failure (it could not
// build, or broke off) adds one failure, and so does one whose runner counted no test at all.

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = process.argv[2];
const read = (name) => (existsSync(join(folder, name)) ? readFileSync(join(folder, name), 'utf8') : undefined);

const fromJunit = (text) => {
  const head = /<testsuite\b[^>]*>/.exec(text)?.[0] ?? '';
  const number = (name) => Number(new RegExp(`\\b${name}="(\\d+)"`).exec(head)?.[1] ?? 0);
  const failed = number('failures') + number('errors');
  const skipped = number('skipped') + number('disabled');
  return { passed: number('tests') - failed - skipped, failed, skipped };
};

const fromVitest = (text) => {
  const report = JSON.parse(text);
  const files = report.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0);
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + files.length,
    skipped: report.numPendingTests + (report.numTodoTests ?? 0),
  };
};

const fromCount = (text) => ({
  passed: text.split('\n').filter((line) => line.startsWith('passed ')).length,
  failed: text.split('\n').filter((line) => line.startsWith('failed ')).length,
  skipped: 0,
});

const counted = (step) => {
  const readers = [
    ['.xml', fromJunit],
    ['.json', fromVitest],
    ['.count', fromCount],
  ];
  for (const [ending, reader] of readers) {
    const text = read(step + ending);
    if (text !== undefined) return reader(text);
  }
  return undefined;
};

const runners = new Set(['release', 'structure', 'web', 'api', 'browser', 'sanitize', 'fuzz']);
const sum = { passed: 0, failed: 0, skipped: 0 };
console.log('\nstep         passed  failed  skipped  seconds');
for (const line of (read('steps') ?? '').split('\n').filter(Boolean)) {
  const [step, status, seconds] = line.split(' ');
  const ok = status === '0';
  let count = counted(step) ?? { passed: 0, failed: 0, skipped: 0 };
  if (!runners.has(step)) count = { passed: ok ? 1 : 0, failed: ok ? 0 : 1, skipped: 0 };
  else if (count.failed === 0 && (!ok || count.passed === 0)) count.failed = 1;
  for (const key of Object.keys(sum)) sum[key] += count[key];
  const cells = [count.passed, count.failed, count.skipped].map((n) => String(n).padStart(7));
  console.log(`${step.padEnd(11)} ${cells.join(' ')} ${seconds.padStart(9)}`);
}
if (sum.passed + sum.failed === 0) sum.failed = 1;
console.log(`\n${sum.passed} passed, ${sum.failed} failed`);
process.exit(sum.failed === 0 ? 0 : 1);
