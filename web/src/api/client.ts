import type { RefusalBody } from './schema';
import type { paths } from './types';

/**
 * Typed calls of the shop's API. Paths, parameters, bodies and answers are those of api/openapi.yaml:
 *
 *     const file = await call('get', '/jobs/{job_id}', { path: { job_id: '12' } });
 *     await call('post', '/jobs/{job_id}/seal', { path: { job_id } });      // who does it is added
 *
 * Throws `Refused` when the shop answered no, `Unreachable` when it did not answer.
 */
export type Method = 'get' | 'post' | 'put' | 'delete';
export type PathOf<M extends Method> = {
  [P in keyof paths]: paths[P][M] extends { responses: unknown } ? P : never;
}[keyof paths];
type Operation<P extends keyof paths, M extends Method> = NonNullable<paths[P][M]>;

type In<O, K extends string> = O extends { parameters: infer A }
  ? K extends keyof A
    ? NonNullable<A[K]>
    : never
  : never;
type Body<O> = O extends { requestBody: { content: infer C } } ? C[keyof C] : never;
type Query<O> = [In<O, 'query'>] extends [never] ? never : Omit<In<O, 'query'>, 'by_person_id'>;

type Part<Name extends string, T> = [T] extends [never]
  ? { [N in Name]?: undefined }
  : Record<never, never> extends T
    ? { [N in Name]?: T }
    : { [N in Name]: T };
export type Asked<P extends keyof paths, M extends Method> = Part<'path', In<Operation<P, M>, 'path'>> &
  Part<'query', Query<Operation<P, M>>> &
  Part<'body', Body<Operation<P, M>>>;
export type Answer<P extends keyof paths, M extends Method> =
  Operation<P, M> extends { responses: { 200: { content: infer C } } } ? C[keyof C] : never;

/** The shop answered, and refused; nothing was changed. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly body: RefusalBody,
  ) {
    super(body.message);
    this.name = 'Refused';
  }
}

/** No answer, or not one of the shop's. Whatever was sent may or may not have arrived. */
export class Unreachable extends Error {
  override name = 'Unreachable';
}

const BASE = '/api/v1';
const ANSWER_LIMIT_MS = 15_000;

let actor: () => string | null = () => null;

/** What the page's door does for requests. */
export interface Door {
  /** How long nobody has touched this tablet: a page that only listens keeps nobody signed in. */
  idle_s: () => number;
  /** The shop knows of nobody at this tablet. */
  signedOut: () => void;
  /** Asks a teacher to sign for what was refused; null when nobody does. */
  sign: (sent: Sent, why: RefusalBody) => Promise<{ person_id: string; token: string } | null>;
}
let door: Door | null = null;

export function keepDoor(keeper: Door): void {
  door = keeper;
}

/** Says who does what is sent from here on. */
export function actAs(personId: () => string | null): void {
  actor = personId;
}

export interface Sent {
  method: Method;
  path: string;
  query?: Record<string, unknown> | undefined;
  body?: unknown;
}

export function address(path: string, query: Record<string, unknown> = {}): string {
  const asked = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    if (value !== undefined && value !== null) asked.set(name, String(value));
  }
  const text = asked.toString();
  return `${BASE}${path}${text ? `?${text}` : ''}`;
}

export function fillPath(path: string, values: Record<string, string> = {}): string {
  return path.replace(/\{(\w+)\}/g, (_, name: string) => encodeURIComponent(values[name] ?? ''));
}

/** Who does it goes with everything that changes the shop's book; computations and backups change nothing in it. */
const UNSIGNED = /^\/(calc|backups|doors|record-check|sessions|signatures)(\/|$)|^\/people\/[^/]+\/secret/;
const signs = (method: Method, path: string) => method !== 'get' && !UNSIGNED.test(path);

export function signed(method: Method, path: string, query: Record<string, unknown> = {}): Record<string, unknown> {
  return signs(method, path) ? { ...query, by_person_id: actor() ?? undefined } : query;
}

/** Sends what has been written out in full; the typed door is `call`. What is a teacher's can be signed for here. */
export async function send(sent: Sent): Promise<unknown> {
  try {
    return await sendOnce(sent);
  } catch (cause) {
    if (!door || !(cause instanceof Refused)) throw cause;
    if (cause.body.code === 'not_signed_in') door.signedOut();
    if (cause.body.code !== 'needs_teacher' || !sent.query?.by_person_id) throw cause;
    const signature = await door.sign(sent, cause.body);
    if (!signature) throw cause;
    const query = { ...sent.query, by_person_id: signature.person_id };
    return sendOnce({ ...sent, query }, { Signature: signature.token });
  }
}

/** Of a body that goes as it is: a table, or a file with its own type. */
function plainType(body: unknown): string | undefined {
  if (typeof body === 'string') return 'text/csv';
  return body instanceof Blob ? body.type : undefined;
}

/** Says with each question how long nobody has touched this tablet. */
const idleness = (): Record<string, string> => (door ? { 'Idle-Seconds': String(Math.floor(door.idle_s())) } : {});

/** The bytes at an address of `address`, for what is heard as it is. */
export async function fetchBytes(url: string, limit_ms: number): Promise<ArrayBuffer> {
  const giveUp = new AbortController();
  const timer = setTimeout(() => giveUp.abort(), limit_ms);
  try {
    const response = await fetch(url, { headers: idleness(), signal: giveUp.signal });
    if (!response.ok) throw new Unreachable(`The shop answered ${response.status}.`);
    return await response.arrayBuffer();
  } finally {
    clearTimeout(timer);
  }
}

async function sendOnce({ method, path, query, body }: Sent, headers: Record<string, string> = {}): Promise<unknown> {
  const plain = plainType(body);
  const giveUp = new AbortController();
  const timer = setTimeout(() => giveUp.abort(), ANSWER_LIMIT_MS);
  let response: Response;
  let answer: string;
  try {
    response = await fetch(address(path, query), {
      method: method.toUpperCase(),
      headers: {
        ...idleness(),
        ...(body === undefined ? {} : { 'Content-Type': plain ?? 'application/json' }),
        ...headers,
      },
      body: body === undefined ? null : plain ? (body as BodyInit) : JSON.stringify(body),
      signal: giveUp.signal,
    });
    answer = await response.text();
  } catch (cause) {
    throw new Unreachable('The shop did not answer.', { cause });
  } finally {
    clearTimeout(timer);
  }
  const json = parse(answer);
  if (response.ok) return json === undefined ? answer : json;
  const refusal = (json as { error?: RefusalBody } | undefined)?.error;
  if (!refusal) throw new Unreachable(`The shop answered ${response.status} without a reason.`);
  throw new Refused(response.status, refusal);
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

type Optional<T> = Record<never, never> extends T ? [asked?: T] : [asked: T];

export async function call<M extends Method, P extends PathOf<M>>(
  method: M,
  path: P,
  ...rest: Optional<Asked<P, M>>
): Promise<Answer<P, M>> {
  const asked = (rest[0] ?? {}) as { path?: Record<string, string>; query?: Record<string, unknown>; body?: unknown };
  const filled = fillPath(path as string, asked.path);
  const sent: Sent = { method, path: filled, query: signed(method, filled, asked.query) };
  if (asked.body !== undefined) sent.body = asked.body;
  return (await send(sent)) as Answer<P, M>;
}
