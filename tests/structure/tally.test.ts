import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tally-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const leave = (name: string, text: string) => writeFileSync(join(folder, name), text);
const tally = () => {
  const { status, stdout } = spawnSync('node', ['tests/tally.mjs', folder], { encoding: 'utf8' });
  return { status, stdout };
};

test('what a failed C++ test said stands before the sum', () => {
  leave('steps', 'sanitize 8 12\n');
  leave(
    'sanitize.xml',
    `<testsuite name="" tests="2" failures="1" disabled="0" skipped="0">
      <testcase name="Live.Hears" status="run"><system-out>all well</system-out></testcase>
      <testcase name="Live.Tells" status="fail"><failure message=""/><system-out>1 &lt; 2 &amp;&amp; aborted</system-out></testcase>
    </testsuite>`,
  );
  const { status, stdout } = tally();
  expect(status).toBe(1);
  expect(stdout).toContain('failed in sanitize: Live.Tells\n  1 < 2 && aborted\n');
  expect(stdout).not.toContain('all well');
  expect(stdout.trimEnd().split('\n').at(-1)).toBe('1 passed, 1 failed');
});

test('a failed test of the page is named with its file and what it said', () => {
  leave('steps', 'browser 1 900\n');
  const file = { name: join(process.cwd(), 'tests/browser/cut.test.ts'), status: 'failed', message: '' };
  const failed = { status: 'failed', fullName: 'the cut ends', failureMessages: ['no button'] };
  const report = (tests: object[], message: string) =>
    JSON.stringify({
      numPassedTests: 3,
      numFailedTests: tests.length,
      numPendingTests: 0,
      testResults: [{ ...file, message, assertionResults: tests }],
    });
  leave('browser.json', report([failed], ''));
  expect(tally().stdout).toContain('failed in browser: tests/browser/cut.test.ts: the cut ends\n  no button\n');
  leave('browser.json', report([], 'the demo shop did not begin'));
  expect(tally().stdout).toContain('tests/browser/cut.test.ts: the file itself\n  the demo shop did not begin\n');
  expect(tally().stdout).toContain('\n3 passed, 1 failed\n');
});

test.each([
  ['release 8 3', 'release.xml', '<testsuite tests="5" failures="1" disabled="0" skipped="1">', '3 passed, 1 failed'],
  ['check 0 3', '', '', '1 passed, 0 failed'],
  ['fuzz 0 60', 'fuzz.count', 'passed a\npassed b\n', '2 passed, 0 failed'],
  ['web 1 3', '', '', '0 passed, 1 failed'],
  ['web 0 3', '', '', '0 passed, 1 failed'],
  ['fuzz 0 60', 'fuzz.count', '', '0 passed, 1 failed'],
  ['', '', '', '0 passed, 1 failed'],
])('counts what failed and what did not run at all, %#: %s, %s', (step, file, text, sum) => {
  leave('steps', step && `${step}\n`);
  if (file) leave(file, text);
  const { status, stdout } = tally();
  expect(stdout.trimEnd().split('\n').at(-1)).toBe(sum);
  expect(status).toBe(sum.endsWith(' 0 failed') ? 0 : 1);
});
