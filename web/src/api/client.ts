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
export type Method = 'get' | 'post' | 'put';
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
const signs = (method: Method, path: string) => method !== 'get' && !/^\/(calc|backups)(\/|$)/.test(path);

export function signed(method: Method, path: string, query: Record<string, unknown> = {}): Record<string, unknown> {
  return signs(method, path) ? { ...query, by_person_id: actor() ?? undefined } : query;
}

/** Sends what has been written out in full; the typed door is `call`. */
export async function send({ method, path, query, body }: Sent): Promise<unknown> {
  const text = typeof body === 'string';
  const giveUp = new AbortController();
  const timer = setTimeout(() => giveUp.abort(), ANSWER_LIMIT_MS);
  let response: Response;
  let answer: string;
  try {
    response = await fetch(address(path, query), {
      method: method.toUpperCase(),
      headers: body === undefined ? {} : { 'Content-Type': text ? 'text/csv' : 'application/json' },
      body: body === undefined ? null : text ? body : JSON.stringify(body),
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
