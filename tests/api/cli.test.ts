import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { root } from '../structure/tree';
import { holdTo } from './contract';
import { binary, done, freshFolder, type Json, run } from './shop';

const folder = freshFolder();
const demo = join(folder, 'demo.sqlite');

const commands = [
  'calc',
  'serve',
  'job list',
  'job show',
  'report',
  'export',
  'import',
  'backup',
  'restore',
  'check',
  'demo',
];

beforeAll(() => {
  done(['demo', '--shop', demo]);
}, 120_000);

describe('the command line', () => {
  test('names every command, and the exit codes', () => {
    const help = done(['--help']);
    for (const command of commands) expect(help).toContain(command.split(' ')[0]);
    expect(help).toMatch(/Exit codes:/);
    expect(done(['--version']).trim()).toMatch(/^\d+\.\d+\.\d+$/);
  });

  test.each(commands)('%s explains itself with an example that begins with its own name', (command) => {
    const help = done([...command.split(' '), '--help']);
    expect(help).toContain(`brakewright ${command}`);
    expect(help).toMatch(/Example/);
  });

  test.each([
    '',
    'cut',
    '--nothing',
    'job',
    'calc',
    'job show',
    'report 1',
    'export --format xml',
    'serve --port 70000',
  ])('"%s" is refused with exit 2 and a sentence', (line) => {
    const { code, out, error } = run(line.split(' ').filter(Boolean));
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(error.length).toBeGreaterThan(20);
  });

  test('names no command or option in the README that there is not', () => {
    const readme = readFileSync(join(root, 'README.md'), 'utf8');
    const lines = [...readme.matchAll(/(?:^ {4}|`|\| )(?:build\/)?(brakewright(?: [^`#|<\n]+)?)/gm)].map((found) =>
      (found[1] as string).trim(),
    );
    expect(lines.length).toBeGreaterThan(5);
    for (const line of lines) {
      const words = line.split(/\s+/).slice(1);
      const command = words.slice(0, words[0] === 'job' ? 2 : 1).filter((word) => /^[a-z]+$/.test(word));
      const help = done([...command, '--help']);
      for (const option of words.filter((word) => word.startsWith('--'))) expect(help).toContain(option);
    }
    const runHelp = readFileSync(join(root, 'run'), 'utf8');
    for (const [, option] of readme.matchAll(/\.\/run (--[a-z-]+)/g)) expect(runHelp).toContain(`${option})`);
  });
});

describe('the demo shop', () => {
  test('is whole, large enough to look at, and says that it is invented', () => {
    expect(done(['check', '--shop', demo])).toContain('nothing wrong');
    const shop = JSON.parse(done(['export', '--shop', demo]));
    holdTo('ShopExport', shop);
    expect(shop.settings.demo).toBe(true);
    expect(shop.lathes.length).toBeGreaterThanOrEqual(3);
    const count = (state: string) => shop.jobs.filter((known: Json) => known.job.state === state).length;
    expect(count('sealed')).toBeGreaterThanOrEqual(38);
    expect(count('open')).toBe(16);
  });

  test('is not put into a shop that has anything in it', () => {
    const { code, error } = run(['demo', '--shop', demo]);
    expect(code).toBe(2);
    expect(error).toContain(demo);
  });

  test('is listed, searched and shown', () => {
    expect(done(['job', 'list', '--shop', demo, '--state', 'open']).trim().split('\n')).toHaveLength(16);
    const all: Json[] = JSON.parse(done(['job', 'list', '--shop', demo, '--json', '--limit', '500']));
    const sealed = all.find(({ state }) => state === 'sealed');
    expect(done(['job', 'list', '--shop', demo, '--words', sealed.vehicle])).toContain(String(sealed.number));
    expect(done(['job', 'show', String(sealed.number), '--shop', demo])).toContain(sealed.seal_sha256);
    holdTo('JobFile', JSON.parse(done(['job', 'show', sealed.id, '--shop', demo, '--json'])));
    expect(run(['job', 'show', '99999', '--shop', demo]).code).toBe(2);
  });

  test('gives records as PDF, SVG and PNG', () => {
    const all: Json[] = JSON.parse(done(['job', 'list', '--shop', demo, '--json', '--state', 'sealed']));
    const number = String(all[0].number);
    for (const [ending, start] of [
      ['pdf', '%PDF-'],
      ['svg', '<?xml'],
      ['png', '\ufffdPNG'],
    ]) {
      const to = join(folder, `record.${ending}`);
      done(['report', number, '--shop', demo, '--to', to]);
      expect(
        readFileSync(to)
          .toString('utf8')
          .startsWith(start as string),
      ).toBe(true);
    }
    expect(run(['report', number, '--shop', demo, '--to', join(folder, 'record.doc')]).code).toBe(2);
    expect(run(['report', number, '--shop', demo, '--to', join(folder, 'none', 'record.pdf')]).code).toBe(1);
  });

  test('has seals that show when a sealed job was changed behind the back of the shop', () => {
    const shop = JSON.parse(done(['export', '--shop', demo]));
    const sealed = shop.jobs.find((known: Json) => known.job.state === 'sealed');
    sealed.job.vehicle = 'another one';
    const forged = join(folder, 'forged.sqlite');
    done(['import', '-', '--shop', forged], JSON.stringify(shop));
    const { code, out, error } = run(['check', '--shop', forged]);
    expect(code).toBe(4);
    expect(out + error).toContain(String(sealed.job.number));
  });

  test.each<[string, string, RegExp]>([
    [
      'a sealed job',
      "DROP TRIGGER sealed_job_stays; UPDATE job SET vehicle = 'another' WHERE number = 1",
      /job 1 is not what was sealed/,
    ],
    [
      'a reading',
      'DROP TRIGGER reading_is_final; UPDATE reading SET value_nm = value_nm + 1000 WHERE place = 1',
      /is not what was sealed/,
    ],
    ['the journal', 'DROP TRIGGER change_stays; DELETE FROM change WHERE seq = 100', /from entry 99 to entry 101/],
    [
      'a person',
      'DROP TRIGGER person_stays; PRAGMA foreign_keys = OFF; DELETE FROM person WHERE place = 1',
      /names a row of person/,
    ],
  ])('names what was done behind its back to %s', (what, sql, named) => {
    const other = join(folder, `${what.replace(/ /g, '-')}.sqlite`);
    done(['export', '--shop', demo, '--to', `${other}.json`]);
    done(['import', `${other}.json`, '--shop', other]);
    const { status, stderr } = spawnSync('sqlite3', [other, sql]);
    expect({ status, error: stderr?.toString() }).toEqual({ status: 0, error: '' });
    const { code, error } = run(['check', '--shop', other]);
    expect(code).toBe(4);
    expect(error).toMatch(named);
  });

  test('carried through another program keeps its seals', () => {
    const shop = JSON.parse(done(['export', '--shop', demo]));
    const other = join(folder, 'carried.sqlite');
    done(['import', '-', '--shop', other], JSON.stringify(shop));
    expect(done(['check', '--shop', other])).toContain('every seal holds');
  });
});

describe('serve', () => {
  test('says in words when its port is taken', async () => {
    const other = createServer().listen(0, '127.0.0.1');
    await once(other, 'listening');
    const { port } = other.address() as { port: number };
    const child = spawn(binary, ['serve', '--shop', join(folder, 'taken.sqlite'), '--port', String(port)]);
    let error = '';
    child.stderr.on('data', (part) => {
      error += part;
    });
    const [code] = await once(child, 'exit');
    other.close();
    expect(code).toBe(5);
    expect(error).toContain(String(port));
    expect(error).toContain('--port');
  });

  test.each(['SIGTERM', 'SIGINT'] as const)('ends in order at %s', async (signal) => {
    const child = spawn(binary, ['serve', '--shop', join(folder, 'ends.sqlite'), '--port', '0']);
    await once(child.stdout, 'data');
    child.kill(signal);
    const [code] = await once(child, 'exit');
    expect(code).toBe(0);
  });

  test('makes the folder of a shop that is not there, and says when it may not', () => {
    const locked = join(folder, 'file');
    writeFileSync(locked, '');
    const { code, error } = run(['import', '-', '--shop', join(locked, 'shop.sqlite')], '{}');
    expect(code).toBeGreaterThan(0);
    expect(error).toContain(locked);
  });
});

describe('./run and ./test', () => {
  test('explain themselves and refuse what they do not know', () => {
    const shell = (line: string) => {
      const { status, stdout, stderr } = spawnSync('bash', ['-c', line], { cwd: folder });
      return { status, text: `${stdout}${stderr}` };
    };
    expect(shell(`${root}/run --help`)).toMatchObject({ status: 0, text: expect.stringContaining('--lan') });
    expect(shell(`${root}/run --nothing`)).toMatchObject({ status: 1, text: expect.stringContaining('--nothing') });
    expect(shell(`${root}/test --list`)).toMatchObject({ status: 0, text: expect.stringContaining('browser') });
    expect(shell(`${root}/test nothing`)).toMatchObject({ status: 2, text: expect.stringContaining('nothing') });
  });
});
