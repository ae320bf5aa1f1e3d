import { useEffect, useRef } from 'preact/hooks';
import { fetchBytes } from '../api/client';
import { benchSound } from '../state/preferences';
import { soundAddress } from './api';
import { BenchSound } from './sound';
import type { AtBench } from './use_run';

const PIECE_S = 1;

/** A piece that takes longer than this has been overtaken by the cut. */
const PIECE_LIMIT_MS = 4000;

/** Whether a finger or a key has been at this page: before that nothing is heard. */
const touched = (begun: boolean) => begun || (navigator.userActivation?.hasBeenActive ?? false);

/** Hears the bench while it turns and is seen, and the shop answers; `begin` has to be called by a tap or a key. */
export function useSound({ run, answers, lost, refusal }: AtBench): { begin: () => void } {
  const sound = useRef<BenchSound | null>(null);
  sound.current ??= new BenchSound({
    open: () => new AudioContext(),
    fetch: (url) => fetchBytes(url, PIECE_LIMIT_MS),
    now: () => performance.now(),
  });
  const begun = useRef(false);
  const stuck = lost || refusal?.act.do === 'turns';
  const turning = run.view.rpm > 0 && !run.view.ended && !stuck;
  const on = benchSound.value === 'on';
  useEffect(() => {
    if (!turning || !on) sound.current?.hush();
  }, [turning, on]);
  useEffect(() => {
    const unseen = () => {
      if (document.visibilityState === 'hidden') sound.current?.hush();
    };
    document.addEventListener('visibilitychange', unseen);
    return () => document.removeEventListener('visibilitychange', unseen);
  }, []);
  useEffect(() => {
    if (document.visibilityState === 'hidden') return;
    if (!turning || !on || !touched(begun.current) || run.acts.at(-1)?.act.do !== 'turns') return;
    sound.current?.start();
    void sound.current?.follow(soundAddress(run.id, PIECE_S));
  }, [answers]);
  useEffect(() => () => sound.current?.close(), []);
  return {
    begin: () => {
      begun.current = true;
      if (on) sound.current?.start();
    },
  };
}
