import { describe, expect, test } from 'vitest';
import { files, linesOf, read } from './tree';

// "add_layer(store shop core)": the layer store may include shop and core, and itself.
const layers = new Map(
  [...read('CMakeLists.txt').matchAll(/^add_layer\(([a-z ]+)\)/gm)].map((found) => {
    const [name, ...inner] = (found[1] ?? '').split(' ');
    return [name as string, new Set([name as string, ...inner])] as const;
  }),
);
// The command line stands above all layers.
layers.set('cli', new Set([...layers.keys(), 'cli']));

interface Include {
  readonly at: string;
  readonly from: string;
  readonly header: string;
}

const sources = files.filter(
  (file) => /^[a-z]+\/.*\.(cpp|hpp)$/.test(file) && layers.has(file.split('/')[0] as string),
);

const includes: Include[] = sources.flatMap((file) =>
  linesOf(file).flatMap((line, index) => {
    const header = /^\s*#\s*include\s*[<"]([^>"]+)[>"]/.exec(line)?.[1];
    return header ? [{ at: `${file}:${index + 1}`, from: file.split('/')[0] as string, header }] : [];
  }),
);

const layerOf = (header: string) => {
  const first = header.split('/')[0] as string;
  return header.includes('/') && layers.has(first) ? first : undefined;
};

describe('the layers', () => {
  test('stand in CMakeLists.txt as the house is drawn', () => {
    const drawn = (name: string) => [...(layers.get(name) ?? [])].filter((inner) => inner !== name).sort();
    expect(drawn('core')).toEqual([]);
    expect(drawn('calc')).toEqual(['core']);
    expect(drawn('shop')).toEqual(['core']);
    expect(drawn('store')).toEqual(['core', 'shop']);
    expect(drawn('report')).toEqual(['core', 'shop']);
    expect(drawn('server')).toEqual(['api', 'calc', 'core', 'report', 'shop', 'store']);
  });

  test('have sources with includes to be held to them', () => {
    expect(sources.length).toBeGreaterThan(10);
    expect(includes.some((include) => layerOf(include.header) === 'core')).toBe(true);
  });

  test('include only what the table allows', () => {
    const wrong = includes
      .filter(({ from, header }) => layerOf(header) && !layers.get(from)?.has(layerOf(header) as string))
      .map(({ at, from, header }) => `${at}: ${from} may not include ${header}`);
    expect(wrong).toEqual([]);
  });

  test('name our headers by their path from the root, so that the table can be held to them', () => {
    const wrong = includes
      .filter(({ at, header }) => header.startsWith('.') || files.includes(`${at.replace(/\/[^/]*$/, '')}/${header}`))
      .filter(({ header }) => !files.includes(header))
      .map(({ at, header }) => `${at}: ${header}`);
    expect(wrong).toEqual([]);
  });
});

describe('core', () => {
  // Nothing of the operating system, no file, clock or thread, no JSON: it must also build to WebAssembly.
  const foreign =
    /^(fstream|filesystem|iostream|stdio\.h|chrono|ctime|time\.h|thread|mutex|shared_mutex|condition_variable|future|semaphore|latch|barrier|stop_token|random|csignal|unistd\.h|sys\/.*|fcntl\.h|pthread\.h|format|ranges|nlohmann\/.*|sqlite3\.h|boost\/(beast|asio|filesystem|chrono)\/.*|spdlog\/.*|sodium.*|cairo.*|pango.*)$/;

  test('includes no header of the system, of files, of the clock or of JSON', () => {
    const wrong = includes
      .filter(({ from, header }) => from === 'core' && foreign.test(header))
      .map(({ at, header }) => `${at}: ${header}`);
    expect(wrong).toEqual([]);
  });

  test('calls nothing of the system, though headers of C that it needs for text would let it', () => {
    const calls = /\b(FILE|f?printf|fopen|puts|scanf|getenv|system|exit|abort|s?rand|time|clock)\s*\(/;
    const wrong = sources
      .filter((file) => file.startsWith('core/'))
      .flatMap((file) =>
        linesOf(file).flatMap((line, index) =>
          calls.test(line.replace(/\/\/.*/, '')) ? [`${file}:${index + 1}: ${line.trim()}`] : [],
        ),
      );
    expect(wrong).toEqual([]);
  });

  test('keeps heavy headers out of its own headers', () => {
    const wrong = includes
      .filter(({ at, from, header }) => from === 'core' && /\.hpp:/.test(at) && /^(Eigen|boost)\//.test(header))
      .map(({ at, header }) => `${at}: ${header}`);
    expect(wrong).toEqual([]);
  });

  test('has no global that changes', () => {
    const wrong = sources
      .filter((file) => file.startsWith('core/'))
      .flatMap((file) =>
        linesOf(file).flatMap((line, index) =>
          /^\s*(static|thread_local|inline)\s+(?!const|constexpr|constinit|inline)\w[\w:<>, ]*\s+\w+\s*(=|\{|;)/.test(
            line,
          )
            ? [`${file}:${index + 1}: ${line.trim()}`]
            : [],
        ),
      );
    expect(wrong).toEqual([]);
  });
});

describe('the page', () => {
  test('knows the shop by its API alone', () => {
    const wrong = files
      .filter((file) => /^web\/.*\.tsx?$/.test(file))
      .flatMap((file) =>
        linesOf(file).flatMap((line, index) => {
          const path = /(?:from|import)\s*\(?\s*['"]([^'"]+)['"]/.exec(line)?.[1] ?? '';
          return /(^|\/)(core|calc|shop|store|report|server|cli)\/.*\.(cpp|hpp)$/.test(path)
            ? [`${file}:${index + 1}: ${path}`]
            : [];
        }),
      );
    expect(wrong).toEqual([]);
  });

  test('fetches nothing from another host', () => {
    const allowed = /https?:\/\/(www\.w3\.org|127\.0\.0\.1|localhost)\b/g;
    const wrong = files
      .filter((file) => /^web\/.*\.(tsx?|css|html)$/.test(file))
      .filter((file) => /https?:\/\//.test(read(file).replace(allowed, '')));
    expect(wrong).toEqual([]);
  });
});
