import { useState } from 'preact/hooks';
import type { JobFile, Limit, Part } from '../api/schema';
import { Conflict } from '../conflict/conflict';
import { useWide } from '../controls/wide';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stepAddress } from '../shell/step_path';
import { length } from '../show/length';
import { isDrum } from '../show/part_kind';
import { jobFile, sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { CommonAllowance } from './common_allowance';
import { DrumSizes } from './drum_sizes';
import { type Editing, useEditing } from './editing';
import { isSize, limitNamesOf, showLimit } from './figures';
import { HouseRule } from './house_rule';
import { KnownParts, Remember } from './known_parts';
import { type LimitName, limitDoubts } from './limit_doubts';
import { LimitEditor } from './limit_editor';
import './limits.css';
import { nameOfField, showField } from './part_fields';
import { LimitsPicture } from './picture';

/** What the rotors are held against, each figure with its source. */
export function LimitsScreen() {
  const file = jobFile.value;
  return file ? <LimitsOf key={file.job.id} file={file} /> : null;
}

function LimitsOf({ file }: { file: JobFile }) {
  const editing = useEditing(file);
  const wide = useWide();
  const [typing_nm, setTyping] = useState<number | null>(null);
  const { shown, open } = editing;
  if (!shown) return null;
  const picture = <LimitsPicture limits={shown.limits} drum={isDrum(shown)} active={open} typing_nm={typing_nm} />;
  const inEditor = !wide && open !== null && isSize(open);
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
          {sealed.value ? null : (
            <KnownParts
              like={shown}
              saving={editing.saving}
              quiet={limitNamesOf(shown).some((name) => shown.limits[name])}
              onFill={editing.fill}
            />
          )}
          {editing.filled ? (
            <p class="doubt" role="status">
              {words.limits.known.filled(editing.filled)}
            </p>
          ) : null}
          {file.parts.length > 1 ? <WhoseChoice editing={editing} /> : null}
          <ul class="limit-rows">
            {limitNamesOf(shown).map((name) => (
              <LimitItem
                key={name}
                name={name}
                part={shown}
                editing={editing}
                picture={inEditor && open === name ? picture : null}
                onTyping={setTyping}
              />
            ))}
          </ul>
          {isDrum(shown) ? <DrumSizes key={`${shown.id}${editing.whose}`} part={shown} editing={editing} /> : null}
          {sealed.value ? null : <Remember key={shown.id} part={shown} name={file.job.vehicle} />}
        </div>
        {inEditor ? null : picture}
      </div>
      {editing.merge ? (
        <Conflict
          merge={editing.merge}
          key={editing.merge.merged.id}
          nameOf={nameOfField}
          show={showField}
          onClose={editing.forgetMerge}
          onSettled={editing.settle}
        />
      ) : null}
    </Screen>
  );
}

function WhoseChoice({ editing }: { editing: Editing }) {
  return (
    <Choice
      label={words.limits.same_for_both}
      value={editing.whose}
      options={[
        { value: 'both', label: words.limits.same_for_both },
        { value: 'left', label: words.trade.side.left },
        { value: 'right', label: words.trade.side.right },
      ]}
      onChange={editing.choose}
    />
  );
}

interface ItemProps {
  name: LimitName;
  part: Part;
  editing: Editing;
  picture: preact.JSX.Element | null;
  onTyping: (nm: number | null) => void;
}

/** One figure as a line, or opened to be typed; with what cannot be right about it beside it. */
function LimitItem({ name, part, editing, picture, onTyping }: ItemProps) {
  const limit = part.limits[name] ?? null;
  const { open, setOpen, saving, keep } = editing;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  return (
    <li>
      {open === name ? (
        <>
          <h2>{words.limits.names[name]}</h2>
          {picture}
          <LimitEditor
            key={name + editing.whose}
            name={name}
            drum={isDrum(part)}
            limit={limit}
            unit={unit}
            busy={saving.busy}
            trouble={saving.trouble}
            onTyping={onTyping}
            onKeep={(value) => keep(name, value)}
            onClose={() => setOpen(null)}
          />
        </>
      ) : (
        <LimitRow name={name} limit={limit} onOpen={sealed.value ? null : () => setOpen(name)} />
      )}
      {limitDoubts(part.limits, isDrum(part))
        .filter((doubt) => doubt.field === name)
        .map((doubt) => (
          <p key={doubt.code} class="field-error" role="status">
            {words.limits.doubts[doubt.code](by(doubt.difference_nm))}
          </p>
        ))}
      {name === 'machine_to' && !limit && open !== name ? (
        <HouseRule part={part} onTake={(value) => keep('machine_to', value)} />
      ) : null}
      {isDrum(part) && !limit && open !== name && (name === 'machine_to' || name === 'discard') ? (
        <CommonAllowance name={name} part={part} onTake={(value) => keep(name, value)} />
      ) : null}
    </li>
  );
}

const by = (difference_nm: number) =>
  difference_nm === 0 ? '' : length(Math.abs(difference_nm), { unit: 'mm', resolution_nm: 1000 });

function LimitRow({ name, limit, onOpen }: { name: LimitName; limit: Limit | null; onOpen: (() => void) | null }) {
  const source = limit ? [words.limits.sources[limit.source], limit.source_note].filter(Boolean).join(': ') : '';
  return (
    <button type="button" class="plain limit-row" disabled={onOpen === null} onClick={() => onOpen?.()}>
      <span class="limit-name">{words.limits.names[name]}</span>{' '}
      <span class={`limit-value figures${limit ? '' : ' soft'}`}>{showLimit(name, limit)}</span>
      {source ? <span class="limit-source small soft">{source}</span> : null}
    </button>
  );
}
