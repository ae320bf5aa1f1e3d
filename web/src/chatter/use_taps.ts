import { useState } from 'preact/hooks';
import { troubleOf } from '../controls/saving';
import { whyNot } from '../detective/recording';
import { base64Of, SENT_BYTES } from '../detective/wav';
import { useKept } from '../state/kept';
import { words } from '../words';
import type { Figures } from './figures';
import { listenTo } from './reckon';
import { aloneHeard, firstToSing, NO_TAPS, pickedOf, type Taps, type Tone } from './tones';

export interface Listening {
  taps: Taps;
  /** Whose tap the next file is. */
  band: 'off' | 'on';
  setBand: (band: 'off' | 'on') => void;
  /** The tone that is counted with. */
  picked: Tone | null;
  pick: (tone: Tone) => void;
  /** The file that was heard last. */
  name: string;
  /** The file that is being listened to, or was refused; empty where the last one was heard. */
  asked: string;
  busy: boolean;
  cut: boolean;
  trouble: string;
  hear: (file: File) => void;
  /** Begins anew, as for another disc. */
  forget: () => void;
}

/** What is kept of the taps: what was heard, and not the recordings. */
interface Tapped extends Taps {
  band: 'off' | 'on';
  picked_hz: number | null;
  name: string;
  cut: boolean;
}

/**
 * Recordings of taps, heard by the shop. What was heard stays in this page's storage, for each disc by itself; of no disc in
 * particular it goes with the page.
 */
export function useTaps(kept: string | null, figures: Figures): Listening {
  const { draft, change, drop } = useKept<Tapped>(kept === null ? null : `chatter_taps.${kept}`, () => ({
    ...NO_TAPS,
    band: 'off',
    picked_hz: null,
    name: '',
    cut: false,
  }));
  const { band, name, cut } = draft;
  const taps: Taps = { off: draft.off, on: draft.on };
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState('');
  const [asked, setAsked] = useState('');
  const listen = async (file: File) => {
    const refusal = await whyNot(file);
    if (refusal) {
      setTrouble(refusal);
      return;
    }
    const bytes = new Uint8Array(await file.slice(0, SENT_BYTES).arrayBuffer());
    const { ring } = await listenTo(figures, base64Of(bytes));
    const tones = ring?.tones ?? [];
    const heard = { ...taps, [band]: tones };
    const alone = aloneHeard(heard);
    const first = firstToSing(alone ?? heard.on ?? []);
    change({
      ...heard,
      name: file.name,
      cut: file.size > SENT_BYTES,
      ...(band === 'off' || alone === null ? { picked_hz: first?.hz ?? null } : {}),
    });
    setAsked('');
  };
  const hear = (file: File) => {
    if (busy) return;
    setBusy(true);
    setTrouble('');
    setAsked(file.name);
    listen(file)
      .catch((cause) =>
        setTrouble(cause instanceof DOMException ? words.detective.ear.unread : troubleOf(cause).message),
      )
      .finally(() => setBusy(false));
  };
  /** Not while one is listened to: what was heard before would come back with it. */
  const forget = () => {
    if (busy) return;
    setTrouble('');
    setAsked('');
    drop();
  };
  return {
    taps,
    band,
    setBand: (next) => change({ band: next }),
    picked: pickedOf(taps, draft.picked_hz),
    pick: (tone) => change({ picked_hz: tone.hz }),
    name,
    asked,
    busy,
    cut,
    trouble,
    hear,
    forget,
  };
}
