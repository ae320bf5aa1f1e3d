import { useEffect, useRef, useState } from 'preact/hooks';
import { call, send } from '../api/client';
import { newId } from '../api/ids';
import type { CalcScratchOutput, JobFile, Part, ProofMark, Unit } from '../api/schema';
import { readLength, typed } from '../controls/length_field';
import { type Trouble, troubleOf, useSaving } from '../controls/saving';
import { numberOf } from '../shop/numbers';
import { dropDraft, keepDraft, readDraft } from '../state/drafts';
import { refreshJob } from '../state/job';
import { type ProofFigures, swingOf } from './proof_advice';

export interface MarkTexts {
  centre: string;
  arc: string;
  infeed: string;
}

export interface ProofTexts {
  kind: 'indicator' | 'scratch';
  reading: 'swing' | 'trace';
  unit: Unit;
  swing: string;
  trace: string[];
  marks: [MarkTexts, MarkTexts];
}

const NO_MARK: MarkTexts = { centre: '', arc: '', infeed: '' };
const POINTS = 8;
const WAIT_MS = 200;

export const noProof = (unit: Unit): ProofTexts => ({
  kind: 'indicator',
  reading: 'swing',
  unit,
  swing: '',
  trace: Array.from({ length: POINTS }, () => ''),
  marks: [NO_MARK, NO_MARK],
});

const whole = (mark: MarkTexts) => Object.values(mark).every((text) => text.trim() !== '');

/** What of the texts makes a proof: the body's own fields, and what they say; null while something is still to come. */
async function readProof(texts: ProofTexts) {
  const um = async (text: string) => (await readLength(text.trim(), texts.unit)).nm / 1000;
  if (texts.kind === 'scratch') return readMarks(texts, um);
  if (texts.reading === 'swing') {
    if (texts.swing.trim() === '') return null;
    const runout_um = await um(texts.swing);
    return { body: { runout: typed(texts.swing, texts.unit) }, figures: alone(runout_um) };
  }
  if (texts.trace.some((text) => text.trim() === '')) return null;
  const trace_um = await Promise.all(texts.trace.map(um));
  return { body: { trace_um }, figures: alone(swingOf(trace_um)) };
}

const alone = (runout_um: number): ProofFigures => ({
  runout_um,
  upper_bound: false,
  part_um: null,
  part_deg: null,
  mount_um: null,
  mount_deg: null,
});

async function readMarks(texts: ProofTexts, um: (text: string) => Promise<number>) {
  const typedMarks = texts.marks.filter(whole);
  if (typedMarks.length === 0 || !whole(texts.marks[0])) return null;
  const marks: ProofMark[] = [];
  for (const mark of typedMarks) {
    const centre_deg = numberOf(mark.centre);
    const arc_deg = numberOf(mark.arc);
    if (centre_deg === null || arc_deg === null) return null;
    marks.push({ centre_deg, arc_deg, infeed_um: await um(mark.infeed) });
  }
  const said = (await send({ method: 'post', path: '/calc/scratch', body: { marks } })) as CalcScratchOutput;
  const last = said.marks.at(-1);
  const figures: ProofFigures = {
    runout_um: last?.runout_um ?? 0,
    upper_bound: last?.upper_bound ?? false,
    part_um: said.part?.runout_um ?? null,
    part_deg: said.part?.high_deg ?? null,
    mount_um: said.mount?.runout_um ?? null,
    mount_deg: said.mount?.high_deg ?? null,
  };
  return { body: { marks }, figures };
}

/** A proof as it is typed, what it would say at each moment, and its saving. It survives a reload. */
export function useProofDraft(file: JobFile, part: Part, mount_id: string, unit: Unit) {
  const name = `mount_proof_${mount_id}`;
  const [texts, setTexts] = useState<ProofTexts>(() => readDraft(localStorage, name, noProof(unit)));
  const [id, setId] = useState(newId);
  const [figures, setFigures] = useState<ProofFigures | null>(null);
  const [wrong, setWrong] = useState<Trouble | null>(null);
  const saving = useSaving();
  const asked = useRef(0);
  const change = (with_: Partial<ProofTexts> | ((now: ProofTexts) => Partial<ProofTexts>)) =>
    setTexts((now) => ({ ...now, ...(typeof with_ === 'function' ? with_(now) : with_) }));
  useEffect(() => {
    keepDraft(localStorage, name, texts);
    asked.current += 1;
    const mine = asked.current;
    const timer = setTimeout(() => {
      readProof(texts).then(
        (read) => {
          if (mine !== asked.current) return;
          setFigures(read?.figures ?? null);
          setWrong(null);
        },
        (cause) => {
          if (mine !== asked.current) return;
          setFigures(null);
          setWrong(troubleOf(cause));
        },
      );
    }, WAIT_MS);
    return () => clearTimeout(timer);
  }, [texts]);
  /** Sends what is typed at this moment, which may be ahead of the figures that are shown. */
  const save = (goes_on: boolean, reason: string) =>
    saving.run(async () => {
      const read = await readProof(texts);
      if (!read) return;
      const body = { id, part_id: part.id, kind: texts.kind, ...read.body, goes_on, reason: reason.trim() };
      await call('post', '/jobs/{job_id}/mount-proofs', { path: { job_id: file.job.id }, body });
      await refreshJob();
      dropDraft(localStorage, name);
      setId(newId());
      setTexts({ ...noProof(texts.unit), kind: texts.kind, reading: texts.reading });
    });
  /** What is typed at this moment says, as when a cable's Enter comes before the figures were drawn. */
  const now = () =>
    readProof(texts).then(
      (read) => read?.figures ?? null,
      () => null,
    );
  return { texts, change, figures, wrong, saving, save, now };
}

export type ProofDraft = ReturnType<typeof useProofDraft>;
