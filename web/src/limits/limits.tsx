import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { KnownPart, Limit, Part, Side } from '../api/schema';
import { Conflict } from '../conflict/conflict';
import type { Merge } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { useSaving } from '../controls/saving';
import { useWide } from '../controls/wide';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { length } from '../show/length';
import { jobFile, refreshJob, sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { isThickness, LIMIT_NAMES, sameLimits, showLimit } from './figures';
import { KnownParts, Remember } from './known_parts';
import { figureOf, houseMachineTo, type LimitName, limitDoubts } from './limit_doubts';
import { LimitEditor } from './limit_editor';
import './limits.css';
import { LimitsPicture } from './picture';

/** A limit with its unit and its source is one thing: it is never put together from two hands. */
const isWhole = (path: string) => path.startsWith('limits.');

/** What the rotors are held against, each figure with its source. */
export function LimitsScreen() {
  const file = jobFile.value;
  const parts = file?.parts ?? [];
  const [first, second] = parts;
  const [together, setTogether] = useState(!first || !second || sameLimits(first.limits, second.limits));
  const [side, setSide] = useState<Side>(first?.side ?? 'left');
  const [open, setOpen] = useState<LimitName | null>(null);
  const [typing_nm, setTyping] = useState<number | null>(null);
  const [merge, setMerge] = useState<{ part: Part; merge: Merge<Part> } | null>(null);
  const [filled, setFilled] = useState('');
  const saving = useSaving();
  const wide = useWide();
  const shown = together ? first : parts.find((part) => part.side === side);
  if (!file || !shown) return null;
  const targets = together ? parts : [shown];
  const unit = shop.value?.settings.default_unit ?? 'mm';

  const savePart = async (base: Part, wanted: Part) => {
    const path = { job_id: file.job.id, part_id: base.id };
    const put = (body: Part) => call('put', '/jobs/{job_id}/parts/{part_id}', { path, body });
    const outcome = await saveMerging(base, wanted, put, isWhole);
    if ('merge' in outcome) setMerge({ part: base, merge: outcome.merge });
  };
  const change = (make: (part: Part) => Part, then: () => void) =>
    saving.run(async () => {
      for (const part of targets) await savePart(part, make(part));
      await refreshJob();
      then();
    });
  const keep = (name: LimitName, limit: Limit | null) =>
    change(
      (part) => ({ ...part, limits: { ...part.limits, [name]: limit } }),
      () => setOpen(nextUnknown(shown, name)),
    );
  const fill = (known: KnownPart) =>
    change(
      (part) => ({
        ...part,
        limits: known.limits,
        vented: known.vented,
        known_part_id: known.id,
        outer_diameter: known.outer_diameter ?? part.outer_diameter ?? null,
      }),
      () => setFilled(known.name),
    );
  const doubts = limitDoubts(shown.limits);
  const locked = sealed.value;
  const picture = <LimitsPicture limits={shown.limits} active={open} typing_nm={typing_nm} />;
  return (
    <Screen
      name="limits"
      title={words.limits.title}
      next={
        <a class="button main" href={stepAddress(file.job.number, 'look')}>
          {words.shell.step.look}
        </a>
      }
    >
      <div class="limits">
        <div class="limits-list">
          {locked ? null : (
            <KnownParts saving={saving} quiet={LIMIT_NAMES.some((name) => shown.limits[name])} onFill={fill} />
          )}
          {filled ? (
            <p class="doubt" role="status">
              {words.limits.known.filled(filled)}
            </p>
          ) : null}
          {second ? (
            <div class="limits-whose row">
              <Choice
                label={words.limits.same_for_both}
                value={together ? 'both' : side}
                options={[
                  { value: 'both', label: words.limits.same_for_both },
                  { value: 'left', label: words.trade.side.left },
                  { value: 'right', label: words.trade.side.right },
                ]}
                onChange={(value) => {
                  setTogether(value === 'both');
                  if (value !== 'both') setSide(value as Side);
                  setOpen(null);
                }}
              />
            </div>
          ) : null}
          <ul class="limit-rows">
            {LIMIT_NAMES.map((name) => (
              <li key={name}>
                {open === name ? (
                  <>
                    <h2>{words.limits.names[name]}</h2>
                    {wide || !isThickness(name) ? null : picture}
                    <LimitEditor
                      key={name + side}
                      name={name}
                      limit={shown.limits[name] ?? null}
                      unit={unit}
                      busy={saving.busy}
                      trouble={saving.trouble}
                      onTyping={setTyping}
                      onKeep={(limit) => keep(name, limit)}
                      onClose={() => setOpen(null)}
                    />
                  </>
                ) : (
                  <LimitRow
                    name={name}
                    limit={shown.limits[name] ?? null}
                    onOpen={locked ? null : () => setOpen(name)}
                  />
                )}
                {doubts
                  .filter((doubt) => doubt.field === name)
                  .map((doubt) => (
                    <p key={doubt.code} class="field-error" role="status">
                      {words.limits.doubts[doubt.code](by(doubt.difference_nm))}
                    </p>
                  ))}
                {name === 'machine_to' && !shown.limits.machine_to && open !== name ? (
                  <HouseRule part={shown} onTake={(limit) => keep('machine_to', limit)} />
                ) : null}
              </li>
            ))}
          </ul>
          {locked ? null : <Remember key={shown.id} part={shown} name={file.job.vehicle} />}
        </div>
        {wide || open === null || !isThickness(open) ? picture : null}
      </div>
      {merge ? (
        <Conflict
          merge={merge.merge}
          nameOf={(path) => words.limits.names[path.replace('limits.', '') as LimitName] ?? path}
          show={(path, value) => showLimit(path.replace('limits.', '') as LimitName, value as Limit | null)}
          onClose={() => setMerge(null)}
          onSettled={(settled) =>
            saving.run(async () => {
              setMerge(null);
              await savePart(settled, settled);
              await refreshJob();
            })
          }
        />
      ) : null}
    </Screen>
  );
}

const by = (difference_nm: number) =>
  difference_nm === 0 ? '' : length(Math.abs(difference_nm), { unit: 'mm', resolution_nm: 1000 });

/** After a figure is kept, the next one that is still unknown. */
function nextUnknown(part: Part, kept: LimitName): LimitName | null {
  const later = LIMIT_NAMES.slice(LIMIT_NAMES.indexOf(kept) + 1);
  return later.find((name) => !part.limits[name]) ?? null;
}

function LimitRow({ name, limit, onOpen }: { name: LimitName; limit: Limit | null; onOpen: (() => void) | null }) {
  const source = limit ? [words.limits.sources[limit.source], limit.source_note].filter(Boolean).join(': ') : '';
  return (
    <button type="button" class="plain limit-row" disabled={onOpen === null} onClick={() => onOpen?.()}>
      <span class="limit-name">{words.limits.names[name]}</span>
      <span class={`limit-value figures${limit ? '' : ' soft'}`}>{showLimit(name, limit)}</span>
      {source ? <span class="limit-source small soft">{source}</span> : null}
    </button>
  );
}

/** Machine-to is unknown: said so, and the shop's own allowance offered as what it is. */
function HouseRule({ part, onTake }: { part: Part; onTake: (limit: Limit) => void }) {
  const allowance_nm = shop.value?.settings.house_allowance_nm ?? null;
  const discard = figureOf(part.limits.discard?.value);
  const sum = houseMachineTo(discard, allowance_nm);
  const { house } = words.limits;
  if (sum === null || allowance_nm === null || !discard) return discard ? <p class="small soft">{house.none}</p> : null;
  const unit = part.limits.discard?.value.unit ?? 'mm';
  const how = { unit, resolution_nm: Math.min(discard.resolution_nm, 25_400) };
  const take = () =>
    onTake({
      value: { text: length(sum, how), unit },
      source: 'house_rule',
      source_note: house.note(length(allowance_nm, how)),
    });
  return (
    <div class="doubt">
      <p>{house.offer(length(sum, how), length(allowance_nm, how))}</p>
      {sealed.value ? null : (
        <button type="button" onClick={take}>
          {house.take}
        </button>
      )}
    </div>
  );
}
