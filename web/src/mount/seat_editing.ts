import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { JobFile, KnownPart, Part, Seat, TypedLength, Unit } from '../api/schema';
import type { Merge } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { typed } from '../controls/length_field';
import { useSaving } from '../controls/saving';
import { dropDraft, keepDraft, readDraft } from '../state/drafts';
import { jobFile, refreshJob } from '../state/job';
import { type SeatName, seatFields, seatValue } from './seat_fields';

type Texts = Partial<Record<SeatName, string>>;
type Units = Partial<Record<SeatName, Unit>>;

const MOST_KNOWN = 200;
const isWhole = (path: string) => /^(?:seat|limits)\.|^outer_diameter/.test(path);

/** What is typed of a rotor's seat, and its saving: on one rotor or on both, and with the known part. */
export function useSeatEditing(file: JobFile, part: Part, start: Unit) {
  const fields = seatFields(part);
  const [bases] = useState<readonly Part[]>(() => jobFile.value?.parts ?? file.parts);
  const draft = `seat_${part.id}`;
  const [texts, setTexts] = useState<Texts>(() => {
    const stands = Object.fromEntries(fields.map(({ name }) => [name, seatValue(part, name)?.text ?? '']));
    return readDraft<Texts>(localStorage, draft, stands);
  });
  const [units, setUnits] = useState<Units>(() =>
    Object.fromEntries(fields.map(({ name }) => [name, seatValue(part, name)?.unit ?? start])),
  );
  const [both, setBoth] = useState(file.parts.every((one) => one.construction === part.construction));
  const [merge, setMerge] = useState<Merge<Part> | null>(null);
  const saving = useSaving();
  /** What was typed and not kept is there again after a reload. */
  const type = (name: SeatName, text: string) =>
    setTexts((now) => {
      const next = { ...now, [name]: text };
      keepDraft(localStorage, draft, next);
      return next;
    });
  const value = (name: SeatName): TypedLength | null => {
    const text = (texts[name] ?? '').trim();
    return text === '' ? null : typed(text, units[name] ?? start);
  };
  /** A field that was not touched keeps what stood there, to the last place. */
  const keep = (name: SeatName, of: Part) => {
    const old = seatValue(of, name);
    const now = value(name);
    return old && now && old.text === now.text && old.unit === now.unit ? old : now;
  };
  const filled = (of: Part): Part => {
    const seat = Object.fromEntries(
      fields.filter(({ name }) => name !== 'outer_diameter').map(({ name }) => [name, keep(name, of)]),
    ) as Seat;
    return { ...of, seat: { ...of.seat, ...seat }, outer_diameter: keep('outer_diameter', of) };
  };
  const savePart = async (base: Part, wanted: Part): Promise<boolean> => {
    const path = { job_id: file.job.id, part_id: base.id };
    const put = (body: Part) => call('put', '/jobs/{job_id}/parts/{part_id}', { path, body });
    const outcome = await saveMerging(base, wanted, put, isWhole);
    if ('merge' in outcome) setMerge(outcome.merge);
    return !('merge' in outcome);
  };
  const save = (then: () => void) =>
    saving.run(async () => {
      const targets = both ? bases : bases.filter((one) => one.id === part.id);
      let settled = true;
      for (const base of targets) settled = (await savePart(base, filled(base))) && settled;
      await rememberSeat(filled(part));
      dropDraft(localStorage, draft);
      await refreshJob();
      if (settled) then();
    });
  const settle = (settled: Part, then: () => void) =>
    saving.run(async () => {
      setMerge(null);
      await savePart(settled, settled);
      await refreshJob();
      then();
    });
  return { fields, texts, type, units, setUnits, both, setBoth, merge, setMerge, saving, value, save, settle };
}

export type SeatEditing = ReturnType<typeof useSeatEditing>;

async function knownPart(id: string): Promise<KnownPart | null> {
  const known = await call('get', '/known-parts', { query: { words: '', limit: MOST_KNOWN } });
  return known.find((one) => one.id === id) ?? null;
}

/** The known part that the rotor was filled from learns its seat too. */
async function rememberSeat(part: Part): Promise<void> {
  if (!part.known_part_id) return;
  const known = await knownPart(part.known_part_id);
  if (!known) return;
  const body = { ...known, seat: part.seat ?? {}, outer_diameter: part.outer_diameter ?? known.outer_diameter ?? null };
  await call('put', '/known-parts/{known_part_id}', { path: { known_part_id: known.id }, body });
}
