import { useEffect, useRef } from 'preact/hooks';
import { benchSound } from '../state/preferences';
import { soundAddress } from './api';
import { BenchSound } from './sound';
import type { AtBench } from './use_run';

const PIECE_S = 1;

async function fetchPiece(url: string): Promise<ArrayBuffer> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(String(response.status));
  return response.arrayBuffer();
}

/** Whether a finger or a key has been at this page: before that nothing is heard. */
const touched = (begun: boolean) => begun || (navigator.userActivation?.hasBeenActive ?? false);

/** Hears the bench while it turns; `begin` has to be called by a tap or a key. */
export function useSound({ run, answers }: AtBench): { begin: () => void } {
  const sound = useRef<BenchSound | null>(null);
  sound.current ??= new BenchSound({
    open: () => new AudioContext(),
    fetch: fetchPiece,
    now: () => performance.now(),
  });
  const begun = useRef(false);
  const turning = run.view.rpm > 0 && !run.view.ended;
  const on = benchSound.value === 'on';
  useEffect(() => {
    if (!turning || !on) sound.current?.hush();
  }, [turning, on]);
  useEffect(() => {
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
