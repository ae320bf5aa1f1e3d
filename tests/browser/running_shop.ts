import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

/** A shop of its own for one test: the real program on a free port, with nothing in it or with the invented school. */
export interface RunningShop {
  base: string;
  stop: () => Promise<void>;
}

const PROGRAM = resolve(process.env.BRAKEWRIGHT ?? join(__dirname, '../../build/brakewright'));
const START_LIMIT_MS = 30_000;

export async function startShop(filled: 'empty' | 'demo'): Promise<RunningShop> {
  if (!existsSync(PROGRAM)) throw new Error(`there is no program at ${PROGRAM}: build it, or name it in BRAKEWRIGHT`);
  const folder = mkdtempSync(join(tmpdir(), 'brakewright-page-'));
  const file = join(folder, 'shop.sqlite');
  if (filled === 'demo') execFileSync(PROGRAM, ['demo', '--shop', file], { stdio: 'ignore' });
  const program = spawn(PROGRAM, ['serve', '--shop', file, '--port', '0'], { stdio: ['ignore', 'pipe', 'inherit'] });
  const base = await addressOf(program);
  const stop = async () => {
    const ended = new Promise((done) => program.once('exit', done));
    program.kill('SIGTERM');
    await ended;
    rmSync(folder, { recursive: true, force: true });
  };
  return { base, stop };
}

function addressOf(program: ChildProcess): Promise<string> {
  return new Promise((found, failed) => {
    let told = '';
    const late = setTimeout(
      () => failed(new Error(`no address within the time allowed; it said: ${told}`)),
      START_LIMIT_MS,
    );
    program.stdout?.on('data', (piece: Buffer) => {
      told += piece.toString();
      const address = /http:\/\/127\.0\.0\.1:[0-9]+/.exec(told);
      if (!address) return;
      clearTimeout(late);
      found(address[0]);
    });
    program.once('exit', (code) => failed(new Error(`the program ended with ${code}; it said: ${told}`)));
  });
}
