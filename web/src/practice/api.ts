import { address, call } from '../api/client';
import type { Act, RunLine, Side } from './model';

/** As many runs as the shop gives at once. */
const MOST = 500;

/** What the bench asks of the shop: the benches at work. */
export const readLive = async () => (await call('get', '/practice/runs', { query: { live: true, limit: MOST } })).runs;

/** Runs of one person or of all, the newest first, and how many more there are. */
export interface RunPages {
  runs: RunLine[];
  earlier: number;
}

/** The newest, page by page. */
export async function readPages(pages: number, person_id?: string): Promise<RunPages> {
  const of = person_id ? { person_id } : {};
  const read: RunPages = { runs: [], earlier: 0 };
  for (let page = 0; page < pages; page += 1) {
    const last = read.runs.at(-1);
    const found = await call('get', '/practice/runs', { query: last ? { ...of, before: last.id } : of });
    read.runs.push(...found.runs);
    read.earlier = found.earlier;
    if (found.earlier === 0) break;
  }
  return read;
}

/** Of one person, those that were marked, the newest first. */
export const readEndedRuns = async (person_id: string) =>
  (await call('get', '/practice/runs', { query: { person_id, limit: MOST } })).runs.filter((one) => one.points != null);

export interface Wanted {
  difficulty: number;
  set_id?: string;
  seed?: number;
}

export const beginRun = (body: Wanted) => call('post', '/practice/runs', { body });

export const readRun = (run_id: string) => call('get', '/practice/runs/{run_id}', { path: { run_id } });

export const sendAct = (run_id: string, number: number, act: Act) =>
  call('post', '/practice/runs/{run_id}/acts', { path: { run_id }, body: { number, act } });

export const readPicture = (run_id: string, side: Side, angles: number, rings: number) =>
  call('get', '/practice/runs/{run_id}/picture', { path: { run_id }, query: { side, angles, rings } });

export const soundAddress = (run_id: string, seconds: number) =>
  address(`/practice/runs/${encodeURIComponent(run_id)}/sound`, { seconds });

export const readSets = async () => (await call('get', '/practice/sets')).sets;
