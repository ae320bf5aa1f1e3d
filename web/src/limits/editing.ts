import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { JobFile, KnownPart, Limit, Part, Side } from '../api/schema';
import type { Merge } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { useSaving } from '../controls/saving';
import { isDrum } from '../show/part_kind';
import { jobFile, refreshJob } from '../state/job';
import { limitNamesOf, sameLimits } from './figures';
import type { LimitName } from './limit_doubts';

/** A limit with its unit and its source is one thing: it is never put together from two hands. */
const isWhole = (path: string) => path.startsWith('limits.');

/** Whose limits are being typed: those of both rotors at once, or of one. */
export type Whose = 'both' | Side;

/** What is being changed on the limits of a job, and the ways to save it. */
export function useEditing(file: JobFile) {
  const [first, second] = file.parts;
  const alike = !first || !second || sameLimits(first.limits, second.limits);
  const [whose, setWhose] = useState<Whose>(alike ? 'both' : first.side);
  const [open, setOpenName] = useState<LimitName | null>(null);
  const [bases, setBases] = useState(file.parts);
  const [merge, setMerge] = useState<Merge<Part> | null>(null);
  const [filled, setFilled] = useState('');
  const saving = useSaving();
  const shown = whose === 'both' ? first : file.parts.find((part) => part.side === whose);
  const targets = whose === 'both' ? file.parts : shown ? [shown] : [];

  /** What another tablet saves while a figure is open must come out as a conflict: the rotors as they were count. */
  const setOpen = (name: LimitName | null) => {
    setOpenName(name);
    setBases(jobFile.value?.parts ?? file.parts);
  };
  const savePart = async (base: Part, wanted: Part) => {
    const path = { job_id: file.job.id, part_id: base.id };
    const put = (body: Part) => call('put', '/jobs/{job_id}/parts/{part_id}', { path, body });
    const outcome = await saveMerging(base, wanted, put, isWhole);
    if ('merge' in outcome) setMerge(outcome.merge);
  };
  const change = (make: (part: Part) => Part, then: () => void) =>
    saving.run(async () => {
      for (const target of targets) {
        const base = bases.find((one) => one.id === target.id) ?? target;
        await savePart(base, make(base));
      }
      await refreshJob();
      then();
    });
  return {
    whose,
    shown,
    open,
    setOpen,
    merge,
    filled,
    saving,
    choose: (value: Whose) => {
      setWhose(value);
      setOpen(null);
    },
    keep: (name: LimitName, limit: Limit | null) =>
      change(
        (part) => ({ ...part, limits: { ...part.limits, [name]: limit } }),
        () => setOpen(shown ? nextUnknown(shown, name) : null),
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
        setMerge(null);
        await savePart(settled, settled);
        await refreshJob();
        setOpen(null);
      }),
    forgetMerge: () => setMerge(null),
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
