import { useState } from 'preact/hooks';
import type { Unit } from '../api/schema';
import { useSaving } from '../controls/saving';
import { shop } from '../state/shop';

export interface Asked {
  text: string;
  unit: Unit;
  dry_run: boolean;
}

interface Ways<Report> {
  post: (asked: Asked) => Promise<Report>;
  /** Whether anything was taken, so that the text has done its work. */
  isTaken: (report: Report) => boolean;
  /** What is to be read again then. */
  afterwards: () => Promise<unknown>;
}

/** A table that is looked at first and taken on a second word. Any change to it or its unit forgets the look. */
export function useBringing<Report>({ post, isTaken, afterwards }: Ways<Report>) {
  const [text, setText] = useState('');
  const [unit, setUnit] = useState<Unit>(shop.value?.settings.default_unit ?? 'mm');
  const [looked, setLooked] = useState<Report | null>(null);
  const [done, setDone] = useState<Report | null>(null);
  const saving = useSaving();
  const forget = () => {
    setLooked(null);
    setDone(null);
    saving.setTrouble(null);
  };
  const run = (dry_run: boolean) =>
    saving.run(async () => {
      const report = await post({ text, unit, dry_run });
      setLooked(dry_run ? report : null);
      setDone(dry_run ? null : report);
      if (dry_run || !isTaken(report)) return;
      setText('');
      await afterwards();
    });
  return {
    text,
    unit,
    looked,
    done,
    saving,
    change: (next: string) => {
      setText(next);
      forget();
    },
    chooseUnit: (next: Unit) => {
      setUnit(next);
      forget();
    },
    look: () => run(true),
    take: () => run(false),
    empty: text.trim() === '',
  };
}
