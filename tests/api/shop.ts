import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from '../structure/tree';
import { holdAnswer } from './contract';

export const binary = process.env.BRAKEWRIGHT ?? join(root, 'build', 'brakewright');

// biome-ignore lint/suspicious/noExplicitAny: answers are held against the API's description, not against types
export type Json = any;

/** A new id, version 7 of RFC 9562. */
export const newId = (): string => {
  const bytes = randomBytes(16);
  bytes.writeUIntBE(Date.now(), 0, 6);
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80;
  return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
};

/** A folder that goes away when the tests end. */
export const freshFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'brakewright-test-'));
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly error: string;
}

/** Runs a command of the program to its end. */
export const run = (args: readonly string[], input: string | Buffer = '', env: NodeJS.ProcessEnv = {}): Ran => {
  const { status, stdout, stderr } = spawnSync(binary, args, {
    input,
    env: { ...process.env, ...env },
    maxBuffer: 256 * 1024 * 1024,
    timeout: 120_000,
  });
  return { code: status, out: stdout?.toString() ?? '', error: stderr?.toString() ?? '' };
};

/** Runs a command that must end well and gives what it printed. */
export const done = (args: readonly string[], input: string | Buffer = ''): string => {
  const { code, out, error } = run(args, input);
  if (code !== 0) throw new Error(`brakewright ${args.join(' ')} ended with ${code}: ${error}${out}`);
  return out;
};

export interface Got {
  readonly status: number;
  readonly type: string;
  readonly body: Json;
  readonly bytes: Buffer;
}

/** fetch on a connection of its own: one that is kept alive may be closed for idleness just as the next request goes out. */
export const fetchAlone = (address: string, { headers, ...rest }: RequestInit & { headers: Record<string, string> }) =>
  fetch(address, { ...rest, headers: { ...headers, connection: 'close' } });

/** What teachers and everybody else of a demo shop come in with. */
export const DEMO_PASSWORD = 'practice lathe';
export const DEMO_PIN = '2468';

/** A program that serves one shop, and a client whose every answer is held against the API's description. */
export class Served {
  /** The session that goes with every request, once somebody has signed in. */
  cookie = '';

  private constructor(
    private readonly process: ChildProcess,
    readonly file: string,
    readonly address: string,
    readonly printed: () => string,
  ) {}

  /**
   * @param wrapper  a program with its arguments to start it under, such as prlimit
   * @param port     the same as before, so that pages that are open find it again; else any
   */
  static async start(
    file: string,
    options: { args?: string[]; wrapper?: string[]; port?: number } = {},
  ): Promise<Served> {
    const command = [
      ...(options.wrapper ?? []),
      binary,
      'serve',
      '--shop',
      file,
      '--port',
      String(options.port ?? 0),
      ...(options.args ?? []),
    ];
    const child = spawn(command[0] as string, command.slice(1), { stdio: ['ignore', 'pipe', 'pipe'] });
    let printed = '';
    const address = await new Promise<string>((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error(`no address within 20 s: ${printed}`)), 20_000);
      const hear = (part: Buffer) => {
        printed += part.toString();
        const found = /http:\/\/127\.0\.0\.1:\d+/.exec(printed);
        if (!found) return;
        clearTimeout(timer);
        resolve(found[0]);
      };
      child.stdout?.on('data', hear);
      child.stderr?.on('data', hear);
      child.once('exit', (code) => {
        clearTimeout(timer);
        reject(new Error(`ended with ${code} before it served: ${printed}`));
      });
    });
    const served = new Served(child, file, address, () => printed);
    process.once('exit', () => child.kill('SIGKILL'));
    await served.answersHealth();
    return served;
  }

  private async answersHealth(): Promise<void> {
    for (let tries = 0; tries < 100; ++tries) {
      const ok = await this.raw('GET', '/health').then(
        ({ status }) => status === 200,
        () => false,
      );
      if (ok) return;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    throw new Error('the shop is served but gives no sign of health');
  }

  get pid(): number {
    return this.process.pid as number;
  }

  /** Ends it and waits until it has gone. */
  async stop(signal: NodeJS.Signals = 'SIGTERM'): Promise<number | null> {
    if (this.process.exitCode !== null || this.process.signalCode !== null) return this.process.exitCode;
    const gone = new Promise<number | null>((resolve) => this.process.once('exit', resolve));
    this.process.kill(signal);
    return gone;
  }

  /** One request, answer not held against anything. `path` is below /api/v1 and may have a query. */
  async raw(method: string, path: string, body?: unknown, headers: Record<string, string> = {}): Promise<Got> {
    const asItIs = body === undefined || typeof body === 'string' || Buffer.isBuffer(body);
    const text = asItIs ? (body as string | Uint8Array<ArrayBuffer> | undefined) : JSON.stringify(body);
    const response = await fetchAlone(`${this.address}/api/v1${path}`, {
      method,
      body: text,
      headers: {
        ...(text === undefined ? {} : { 'content-type': 'application/json' }),
        ...(this.cookie ? { cookie: this.cookie, origin: this.address } : {}),
        ...headers,
      },
    });
    const bytes = Buffer.from(await response.arrayBuffer());
    const type = response.headers.get('content-type') ?? '';
    return {
      status: response.status,
      type,
      bytes,
      body: type.startsWith('application/json') ? JSON.parse(bytes.toString()) : undefined,
    };
  }

  /** Signs somebody in as a tablet of their own; gives its cookie. */
  async session(person_id: string, secret: string, rest: object = {}): Promise<string> {
    const response = await fetchAlone(`${this.address}/api/v1/sessions`, {
      method: 'POST',
      body: JSON.stringify({ person_id, secret, ...rest }),
      headers: { 'content-type': 'application/json' },
    });
    const cookie = response.headers.get('set-cookie')?.split(';')[0];
    if (response.status !== 200 || !cookie) throw new Error(`no session: ${response.status} ${await response.text()}`);
    return cookie;
  }

  /** Signs somebody in for every request from here on. */
  async signIn(person_id: string, secret: string): Promise<void> {
    this.cookie = await this.session(person_id, secret);
  }

  /** Signs a teacher of a demo shop in for every request from here on; gives the name at the door. */
  async signInToDemo(): Promise<{ id: string; name: string }> {
    const { people } = await this.want('GET', '/doors');
    const teacher = people.find((one: Json) => one.role === 'teacher');
    await this.signIn(teacher.id, DEMO_PASSWORD);
    return teacher;
  }

  /** One request whose answer is held against the description. */
  async ask(method: string, path: string, body?: unknown, headers: Record<string, string> = {}): Promise<Got> {
    const got = await this.raw(method, path, body, headers);
    const bare = path.split('?')[0] as string;
    holdAnswer({ method, path: bare, status: got.status, type: got.type, body: got.body });
    return got;
  }

  /** One request that must succeed; gives the body. */
  async want(method: string, path: string, body?: unknown, headers: Record<string, string> = {}): Promise<Json> {
    const got = await this.ask(method, path, body, headers);
    if (got.status !== 200) throw new Error(`${method} ${path}: ${got.status} ${JSON.stringify(got.body)}`);
    return got.body ?? got.bytes;
  }

  /** One request that must be refused; gives the refusal with its status. */
  async refusal(
    method: string,
    path: string,
    body?: unknown,
    headers: Record<string, string> = {},
  ): Promise<{ status: number; code: string; field: string; message: string; doubts?: Json; current?: Json }> {
    const got = await this.ask(method, path, body, headers);
    if (got.status < 400) throw new Error(`${method} ${path} was not refused: ${JSON.stringify(got.body)}`);
    return { status: got.status, ...got.body.error };
  }
}
