import { useState } from 'preact/hooks';
import type { Unit } from '../api/schema';
import { useSaving } from '../controls/saving';
import { useKept } from '../state/kept';
import { shop } from '../state/shop';

export interface Asked {
  text: string;
  unit: Unit;
  dry_run: boolean;
}

interface Ways<Report> {
  /** Under which name what is pasted here is kept until it is taken. */
  draft: string;
  post: (asked: Asked) => Promise<Report>;
  /** Whether anything was taken, so that the text has done its work. */
  isTaken: (report: Report) => boolean;
  /** What is to be read again then. */
  afterwards: () => Promise<unknown>;
}

/** A table that is looked at first and taken on a second word. Any change to it or its unit forgets the look. */
export function useBringing<Report>({ draft: name, post, isTaken, afterwards }: Ways<Report>) {
  const { draft, change, drop } = useKept(name, () => ({
    text: '',
    unit: shop.value?.settings.default_unit ?? ('mm' as Unit),
  }));
  const { text, unit } = draft;
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
      drop();
      await afterwards();
    });
  return {
    text,
    unit,
    looked,
    done,
    saving,
    change: (next: string) => {
      change({ text: next });
      forget();
    },
    chooseUnit: (next: Unit) => {
      change({ unit: next });
      forget();
    },
    look: () => run(true),
    take: () => run(false),
    empty: text.trim() === '',
  };
}
