// Sums up what the steps of ./test left in a folder, tells of each failed test what it said, and exits 1 unless all of
// it passed.
//
// `steps` has a line "name status seconds" for each step. A step's tests are counted from what its runner wrote:
// NAME.xml (JUnit, by ctest), NAME.json (by vitest), NAME.count ("passed x" or "failed x" lines). A step without any
// of these is itself one test. A step that exited with an error though its runner counted no failure (it could not
// build, or broke off) adds one failure, and so does one whose runner counted no test at all.

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = process.argv[2];
const LINES_OF_A_FAILURE = 15;
const read = (name) => (existsSync(join(folder, name)) ? readFileSync(join(folder, name), 'utf8') : undefined);

const plain = (xml) =>
  xml
    .replace(/&#(\d+);/g, (_, code) => String.fromCodePoint(Number(code)))
    .replace(/&(lt|gt|quot|apos);/g, (_, name) => ({ lt: '<', gt: '>', quot: '"', apos: "'" })[name])
    .replaceAll('&amp;', '&');

const failuresOfJunit = (text) =>
  [...text.matchAll(/<testcase name="([^"]*)"[^>]*>(.*?)<\/testcase>/gs)]
    .filter(([, , inside]) => /<(failure|error)\b/.test(inside))
    .map(([, name, inside]) => {
      const said = plain(/<system-out>(.*?)<\/system-out>/s.exec(inside)?.[1] ?? '').trimEnd().split('\n');
      return { name: plain(name), lines: said.slice(-LINES_OF_A_FAILURE) };
    });

const failuresOfVitest = (text) =>
  JSON.parse(text).testResults.flatMap((file) => {
    const tests = file.assertionResults.filter((test) => test.status === 'failed');
    const messages = tests.map((test) => ({ name: test.fullName, said: test.failureMessages.join('\n') }));
    if (file.status === 'failed' && tests.length === 0) messages.push({ name: 'the file itself', said: file.message });
    return messages.map(({ name, said }) => ({
      name: `${file.name.slice(process.cwd().length + 1)}: ${name}`,
      lines: said.split('\n').slice(0, LINES_OF_A_FAILURE),
    }));
  });

const fromJunit = (text) => {
  const head = /<testsuite\b[^>]*>/.exec(text)?.[0] ?? '';
  const number = (name) => Number(new RegExp(`\\b${name}="(\\d+)"`).exec(head)?.[1] ?? 0);
  const failed = number('failures') + number('errors');
  const skipped = number('skipped') + number('disabled');
  return { passed: number('tests') - failed - skipped, failed, skipped, failures: failuresOfJunit(text) };
};

const fromVitest = (text) => {
  const report = JSON.parse(text);
  const files = report.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0);
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + files.length,
    skipped: report.numPendingTests + (report.numTodoTests ?? 0),
    failures: failuresOfVitest(text),
  };
};

const fromCount = (text) => ({
  passed: text.split('\n').filter((line) => line.startsWith('passed ')).length,
  failed: text.split('\n').filter((line) => line.startsWith('failed ')).length,
  skipped: 0,
  failures: [],
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
const rows = ['\nstep         passed  failed  skipped  seconds'];
for (const line of (read('steps') ?? '').split('\n').filter(Boolean)) {
  const [step, status, seconds] = line.split(' ');
  const ok = status === '0';
  let count = counted(step) ?? { passed: 0, failed: 0, skipped: 0, failures: [] };
  for (const { name, lines } of count.failures) console.log(`\nfailed in ${step}: ${name}\n  ${lines.join('\n  ')}`);
  if (!runners.has(step)) count = { passed: ok ? 1 : 0, failed: ok ? 0 : 1, skipped: 0, failures: [] };
  else if (count.failed === 0 && (!ok || count.passed === 0)) count.failed = 1;
  for (const key of Object.keys(sum)) sum[key] += count[key];
  const cells = [count.passed, count.failed, count.skipped].map((n) => String(n).padStart(7));
  rows.push(`${step.padEnd(11)} ${cells.join(' ')} ${seconds.padStart(9)}`);
}
console.log(rows.join('\n'));
if (sum.passed + sum.failed === 0) sum.failed = 1;
console.log(`\n${sum.passed} passed, ${sum.failed} failed`);
process.exit(sum.failed === 0 ? 0 : 1);
