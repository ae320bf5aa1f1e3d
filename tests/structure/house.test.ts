import { describe, expect, test } from 'vitest';
import { files, linesOf, read } from './tree';

const written = files.filter((file) =>
  /\.(cpp|hpp|ts|tsx|mjs|css|html|md|yaml|cmake|txt|sql|sh)$|^(run|test|\.ci\/run)$/.test(file),
);
const code = files.filter((file) => /\.(cpp|hpp|ts|tsx|mjs|css|sql)$/.test(file));

const hits = (paths: readonly string[], pattern: RegExp) =>
  paths.flatMap((file) =>
    linesOf(file).flatMap((line, index) => (pattern.test(line) ? [`${file}:${index + 1}: ${line.trim()}`] : [])),
  );

describe('the house', () => {
  test('has files to look at', () => {
    expect(code.length).toBeGreaterThan(20);
    expect(written).toContain('README.md');
  });

  test('keeps every source within 500 lines', () => {
    const long = code.map((file) => [file, linesOf(file).length - 1] as const).filter(([, lines]) => lines > 500);
    expect(long).toEqual([]);
  });

  test('leaves no work unfinished by its own words', () => {
    const words = /\b(T[O]DO|F[I]XME|X[X]X|not impl[e]mented|st[u]b(bed)?)\b/i;
    const standIn = /\bpl[a]ceholder\b(?!\s*[=:])/i;
    expect(hits(written, words)).toEqual([]);
    expect(hits(written, standIn).filter((hit) => !/::pl[a]ceholder/.test(hit))).toEqual([]);
  });

  test('names no path of the machine it was written on', () => {
    expect(hits(written, /(^|[^\w.])\/(wor[k]|hom[e]|farm|root)\/|\.librar[y]\//)).toEqual([]);
  });

  test('has no drawer for odds and ends', () => {
    const drawers = files.filter((file) =>
      /(^|\/)(utils?|common|helpers?|misc|manager)(\/|\.(cpp|hpp|tsx?)$)/i.test(file),
    );
    expect(drawers).toEqual([]);
  });

  test('skips no test and runs none alone', () => {
    const tests = files.filter((file) => /^tests\/.*\.tsx?$/.test(file) && !file.startsWith('tests/structure/'));
    expect(hits(tests, /\b(test|it|describe)\.(only|tod[o]|skip)\b/)).toEqual([]);
    expect(
      hits(
        files.filter((file) => /_test\.cpp$/.test(file)),
        /\bDISABLED_|GTEST_SKIP/,
      ),
    ).toEqual([]);
  });

  test('measures no time in a test', () => {
    const tests = files.filter((file) => /_test\.cpp$/.test(file));
    expect(hits(tests, /steady_clock::now|high_resolution_clock/)).toEqual([]);
  });

  test('draws no random number in another way on another library', () => {
    const cpp = files.filter((file) => /\.(cpp|hpp)$/.test(file));
    expect(hits(cpp, /std::(normal|uniform_real|uniform_int|gamma|student_t)_distribution|\brand\(\)/)).toEqual([]);
  });

  test('asks for tools from the public registry alone', () => {
    const lock = JSON.parse(read('package-lock.json')) as { packages: Record<string, { resolved?: string }> };
    const hosts = Object.values(lock.packages).flatMap(({ resolved }) => (resolved ? [new URL(resolved).host] : []));
    expect(Object.keys(lock.packages).length).toBeGreaterThan(50);
    expect(hosts.filter((host) => host !== 'registry.npmjs.org')).toEqual([]);
  });

  test('pins every tool to one version', () => {
    const { dependencies, devDependencies } = JSON.parse(read('package.json')) as Record<
      string,
      Record<string, string>
    >;
    const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(
      ([, version]) => !/^\d+\.\d+\.\d+$/.test(version),
    );
    expect(loose).toEqual([]);
  });
});

describe('the table of an outside check', () => {
  test('says in its first line, or in SOURCES.md, where it was published', () => {
    const sources = files.includes('tests/outside/data/SOURCES.md') ? read('tests/outside/data/SOURCES.md') : '';
    const tables = files.filter((file) => /^tests\/outside\/data\/.*\.csv$/.test(file));
    const unnamed = tables.filter(
      (file) => !read(file).startsWith('#') && !sources.includes(file.replace(/^.*\//, '')),
    );
    expect(unnamed).toEqual([]);
  });
});
