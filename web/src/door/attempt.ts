import { useEffect, useState } from 'preact/hooks';
import { Refused } from '../api/client';
import { type Trouble, troubleOf } from '../controls/saving';
import { capital } from '../show/typeset';
import { words } from '../words';

/** A try at a secret: what went wrong with the last one, and the seconds until the next can be made. */
export interface Attempt {
  busy: boolean;
  trouble: Trouble | null;
  wait_s: number;
  /** What to say beside the field. */
  said: string | undefined;
  run: (work: () => Promise<unknown>) => Promise<boolean>;
  forget: () => void;
}

export function useAttempt(): Attempt {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [wait_s, setWait] = useState(0);
  useEffect(() => {
    if (wait_s <= 0) return undefined;
    const timer = setTimeout(() => setWait(wait_s - 1), 1000);
    return () => clearTimeout(timer);
  }, [wait_s]);
  const run = async (work: () => Promise<unknown>) => {
    setBusy(true);
    setTrouble(null);
    try {
      await work();
      return true;
    } catch (cause) {
      setTrouble(troubleOf(cause));
      setWait(cause instanceof Refused ? (cause.body.retry_after_s ?? 0) : 0);
      return false;
    } finally {
      setBusy(false);
    }
  };
  const message = trouble?.code === 'wait' ? '' : (trouble?.message ?? '');
  const said = [message && `${capital(message).replace(/\.$/, '')}.`, wait_s > 0 ? words.door.wait(wait_s) : '']
    .filter(Boolean)
    .join(' ');
  return { busy, trouble, wait_s, said: said || undefined, run, forget: () => setTrouble(null) };
}
