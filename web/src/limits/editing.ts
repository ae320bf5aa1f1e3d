import { useRef, useState } from 'preact/hooks';
import { call } from '../api/client';
import type { JobFile, KnownPart, Limit, Part, Side } from '../api/schema';
import type { Merge } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { useSaving } from '../controls/saving';
import { isDrum } from '../show/part_kind';
import { jobFile, refreshJob } from '../state/job';
import { limitNamesOf, sameLimits } from './figures';
import type { LimitName } from './limit_doubts';
import { isWhole } from './part_fields';

/** Whose limits are being typed: those of both rotors at once, or of one. */
export type Whose = 'both' | Side;

/** What two people changed of one part, and what follows when it is settled. */
interface OpenMerge {
  merge: Merge<Part>;
  then: () => void;
}

/** What is being changed on the limits of a job, and the ways to save it. */
export function useEditing(file: JobFile) {
  const [first, second] = file.parts;
  const alike = !first || !second || sameLimits(first.limits, second.limits);
  const [whose, setWhose] = useState<Whose>(alike ? 'both' : first.side);
  const [open, setOpenName] = useState<LimitName | null>(null);
  const [bases, setBases] = useState<readonly Part[] | null>(null);
  const [open_merges, setMerges] = useState<readonly OpenMerge[]>([]);
  const [filled, setFilled] = useState('');
  const saving = useSaving();
  const shown = whose === 'both' ? first : file.parts.find((part) => part.side === whose);
  const targets = whose === 'both' ? file.parts : shown ? [shown] : [];
  const present = () => jobFile.value?.parts ?? file.parts;

  /**
   * What another tablet saves while a figure is open must come out as a conflict: the rotors as they were count. With
   * none open, what is changed is changed of the rotors as they are.
   */
  const openNow = useRef<LimitName | null>(null);
  const setOpen = (name: LimitName | null) => {
    openNow.current = name;
    setOpenName(name);
    setBases(name === null ? null : present());
  };
  const savePart = async (base: Part, wanted: Part, then: () => void): Promise<OpenMerge[]> => {
    const path = { job_id: file.job.id, part_id: base.id };
    const put = (body: Part) => call('put', '/jobs/{job_id}/parts/{part_id}', { path, body });
    const outcome = await saveMerging(base, wanted, put, isWhole);
    return 'merge' in outcome ? [{ merge: outcome.merge, then }] : [];
  };
  /** Of what was kept, `then` follows at once; of what two people changed, once the last of it is settled. */
  const change = (make: (part: Part) => Part, then: () => void, since: readonly Part[] | null = bases) =>
    saving.run(async () => {
      const merges: OpenMerge[] = [];
      for (const target of targets) {
        const base = (since ?? present()).find((one) => one.id === target.id) ?? target;
        merges.push(...(await savePart(base, make(base), then)));
      }
      setMerges(merges);
      await refreshJob();
      if (merges.length === 0) then();
    });
  const [at] = open_merges;
  return {
    whose,
    shown,
    open,
    setOpen,
    merge: at?.merge ?? null,
    filled,
    saving,
    choose: (value: Whose) => {
      setWhose(value);
      setOpen(null);
    },
    keep: (name: LimitName, limit: Limit | null) =>
      change(
        (part) => ({ ...part, limits: { ...part.limits, [name]: limit } }),
        () => {
          const elsewhere = openNow.current !== null && openNow.current !== name;
          if (!elsewhere) setOpen(shown ? nextUnknown(shown, name) : null);
        },
      ),
    /** The same change to all the parts that are shown. */
    change,
    fill: (known: KnownPart) =>
      change(
        (part) => filledFrom(known, part),
        () => setFilled(known.name),
      ),
    settle: (settled: Part) =>
      saving.run(async () => {
        if (!at) return;
        const merges = [...(await savePart(settled, settled, at.then)), ...open_merges.slice(1)];
        setMerges(merges);
        await refreshJob();
        if (merges.length === 0) at.then();
      }),
    forgetMerge: () => setMerges(open_merges.slice(1)),
  };
}

export type Editing = ReturnType<typeof useEditing>;

const filledFrom = (known: KnownPart, part: Part): Part => ({
  ...part,
  limits: known.limits,
  vented: known.vented,
  known_part_id: known.id,
  outer_diameter: known.outer_diameter ?? part.outer_diameter ?? null,
  ...(isDrum(part) ? drumSizes(known, part) : {}),
  seat: { ...part.seat, ...Object.fromEntries(Object.entries(known.seat ?? {}).filter(([, size]) => size !== null)) },
});

const drumSizes = (known: KnownPart, part: Part): Pick<Part, 'band_width' | 'lining_radius' | 'lining_arc_deg'> => ({
  band_width: known.band_width ?? part.band_width ?? null,
  lining_radius: known.lining_radius ?? part.lining_radius ?? null,
  lining_arc_deg: known.lining_arc_deg ?? part.lining_arc_deg ?? null,
});

/** After a figure is kept, the next one that is still unknown. */
function nextUnknown(part: Part, kept: LimitName): LimitName | null {
  const names = limitNamesOf(part);
  const later = names.slice(names.indexOf(kept) + 1);
  return later.find((name) => !part.limits[name]) ?? null;
}
