import { address, call } from '../api/client';
import type { Act, Side } from './model';

/** What the bench asks of the shop. */
export const readRuns = async (live: boolean) =>
  (await call('get', '/practice/runs', { query: live ? { live } : {} })).runs;

/** Of one person, those that were marked, the newest first. */
export const readEndedRuns = async (person_id: string) =>
  (await call('get', '/practice/runs', { query: { person_id } })).runs.filter((one) => one.points != null);

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
