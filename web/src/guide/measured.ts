import { useEffect, useState } from 'preact/hooks';
import { Refused } from '../api/client';
import { readLength } from '../controls/length_field';
import { shop } from '../state/shop';

export interface Measured {
  mm: number | null;
  /** Why it is no length, in the shop's words; empty where it is one, or the shop cannot be asked. */
  wrong: string;
}

const NOTHING: Measured = { mm: null, wrong: '' };
const WAIT_MS = 180;

/** What the shop makes of a thickness that is being typed. */
export function useMeasured(text: string): Measured {
  const [measured, setMeasured] = useState(NOTHING);
  const typed = text.trim();
  useEffect(() => {
    let old = false;
    setMeasured(NOTHING);
    if (typed === '') return undefined;
    const timer = setTimeout(() => {
      readLength(typed, shop.value?.settings.default_unit ?? 'mm').then(
        ({ nm }) => (old ? undefined : setMeasured({ mm: nm / 1e6, wrong: '' })),
        (cause) =>
          old ? undefined : setMeasured({ mm: null, wrong: cause instanceof Refused ? cause.body.message : '' }),
      );
    }, WAIT_MS);
    return () => {
      old = true;
      clearTimeout(timer);
    };
  }, [typed]);
  return measured;
}

/** Half a millimetre from what is expected is another unit, another rotor, or a slip, never the lathe: our own, no source. */
const FAR_MM = 0.5;

export const isFar = (mm: number | null, expected_mm: number | undefined): boolean =>
  mm !== null && expected_mm !== undefined && Math.abs(mm - expected_mm) > FAR_MM;
