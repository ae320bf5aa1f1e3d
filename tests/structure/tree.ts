import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

const notOurs =
  /^(\.git|node_modules|build.*|artifacts|shop-data|web\/dist|web\/src\/api\/types\.ts|package-lock\.json)$/;

const walk = (folder: string): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    const short = relative(root, path);
    if (notOurs.test(short)) return [];
    return statSync(path).isDirectory() ? walk(path) : [short];
  });

/** Every file that we wrote, as paths from the root. */
export const files: readonly string[] = walk(root).sort();

export const read = (path: string): string => readFileSync(join(root, path), 'utf8');

export const linesOf = (path: string): string[] => read(path).split('\n');
