import { useState } from 'preact/hooks';
import { troubleOf } from '../controls/saving';
import { whyNot } from '../detective/recording';
import { base64Of, SENT_BYTES } from '../detective/wav';
import { words } from '../words';
import type { Figures } from './figures';
import { listenTo } from './reckon';
import { aloneHeard, firstToSing, NO_TAPS, type Taps, type Tone } from './tones';

export interface Listening {
  taps: Taps;
  /** Whose tap the next file is. */
  band: 'off' | 'on';
  setBand: (band: 'off' | 'on') => void;
  /** The tone that is counted with. */
  picked: Tone | null;
  pick: (tone: Tone) => void;
  name: string;
  busy: boolean;
  cut: boolean;
  trouble: string;
  hear: (file: File) => void;
}

/** Recordings of taps, heard by the shop; they stay on this screen alone. */
export function useTaps(figures: Figures): Listening {
  const [taps, setTaps] = useState<Taps>(NO_TAPS);
  const [band, setBand] = useState<'off' | 'on'>('off');
  const [picked, setPicked] = useState<Tone | null>(null);
  const [name, setName] = useState('');
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState('');
  const [cut, setCut] = useState(false);
  const listen = async (file: File) => {
    const refusal = await whyNot(file);
    if (refusal) {
      setTrouble(refusal);
      return;
    }
    const bytes = new Uint8Array(await file.slice(0, SENT_BYTES).arrayBuffer());
    const { ring } = await listenTo(figures, base64Of(bytes));
    const tones = ring?.tones ?? [];
    setCut(file.size > SENT_BYTES);
    const heard = { ...taps, [band]: tones };
    const alone = aloneHeard(heard);
    setTaps(heard);
    if (band === 'off' || alone === null) setPicked(firstToSing(alone ?? heard.on ?? []));
  };
  const hear = (file: File) => {
    if (busy) return;
    setBusy(true);
    setTrouble('');
    setName(file.name);
    listen(file)
      .catch((cause) =>
        setTrouble(cause instanceof DOMException ? words.detective.ear.unread : troubleOf(cause).message),
      )
      .finally(() => setBusy(false));
  };
  return { taps, band, setBand, picked, pick: setPicked, name, busy, cut, trouble, hear };
}
