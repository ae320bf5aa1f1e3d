import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { CalcMountMiss, JobFile, Lathe, Part } from '../api/schema';
import { pegboard, withNames } from '../pegboard/board_state';
import { byHook, whereIs } from '../pegboard/where';
import { ask } from '../route/router';
import { Screen } from '../shell/screen';
import { lengthOfMm } from '../show/length';
import { sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { OwnChoice } from './own_choice';
import { useRecordMount } from './record_mount';
import { Drawn, NutCaution } from './stacks';

interface Props {
  file: JobFile;
  part: Part;
  lathe: Lathe;
  nearest: readonly CalcMountMiss[];
  which: ComponentChildren;
}

/** Nothing fits: the one dimension that stands in the way, large, and what would mend it. */
export function Nearest({ file, part, lathe, nearest, which }: Props) {
  const { mount } = words;
  const [first, ...others] = nearest;
  const [own, setOwn] = useState<string[] | null>(null);
  const [reason, setReason] = useState('');
  const { saving, record } = useRecordMount(file, part, lathe.id);
  return (
    <Screen
      name="mount"
      title={mount.nearest.title}
      next={
        own && !sealed.value ? (
          <button
            type="button"
            class="main"
            disabled={saving.busy || own.length === 0}
            onClick={() => record(own, reason)}
          >
            {mount.stack.record}
          </button>
        ) : (
          <a class="button main" href="/shop/pegboard?view=grid">
            {words.pegboard.enter_many}
          </a>
        )
      }
      aside={
        <button type="button" onClick={() => ask({ part: part.side, view: 'seat' })}>
          {mount.seat.change}
        </button>
      }
    >
      {which}
      {first ? <Miss miss={first} large /> : null}
      {others.length > 0 ? (
        <section aria-label={mount.nearest.others}>
          <h2>{mount.nearest.others}</h2>
          <ul class="misses">
            {others.map((miss) => (
              <li key={miss.rule}>
                <Miss miss={miss} />
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      <Out nearest={nearest} job_id={file.job.id} />
      {own ? (
        <div class="mount">
          <Drawn ids={own} {...{ file, part, lathe }} />
          <OwnChoice
            job_id={file.job.id}
            ids={own}
            onChange={setOwn}
            reason={reason}
            onReason={setReason}
            trouble={saving.trouble}
          />
          <NutCaution lathe={lathe} />
        </div>
      ) : sealed.value ? null : (
        <button type="button" class="own-open" onClick={() => setOwn([])}>
          {mount.stack.other}
        </button>
      )}
    </Screen>
  );
}

/** Pieces that the board lacks and the shop has: with whom they are. */
function Out({ nearest, job_id }: { nearest: readonly CalcMountMiss[]; job_id: string }) {
  const out = (pegboard.value ?? [])
    .filter((hung) => hung.piece.active && hung.state !== 'on_board')
    .filter((hung) => hung.state === 'missing' || hung.last_booking?.job_id !== job_id)
    .filter((hung) => nearest.some((miss) => miss.rule === `no_${hung.piece.kind}` || miss.miss_mm > 0))
    .sort(byHook);
  if (out.length === 0) return null;
  return (
    <section aria-label={words.mount.nearest.out}>
      <h2>{words.mount.nearest.out}</h2>
      <ul class="misses">
        {out.map((hung) => (
          <li key={hung.piece.id}>
            <a href={`/shop/pegboard?piece=${hung.piece.id}`}>{hung.piece.name}</a>{' '}
            <span class="small soft">{whereIs(hung)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Miss({ miss, large = false }: { miss: CalcMountMiss; large?: boolean }) {
  const { nearest } = words.mount;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const by = lengthOfMm(miss.miss_mm, { unit, resolution_nm: unit === 'mm' ? 10_000 : 25_400 });
  const rule = nearest.rules[miss.rule] ?? miss.rule;
  return (
    <div class={large ? 'miss miss-large' : 'miss'}>
      <p class="miss-rule">{rule}</p>
      {miss.miss_mm > 0 ? (
        <p class="miss-by">
          <span class="small">{nearest.misses('').trim()}</span> <span class="miss-figure figures">{by}</span>
        </p>
      ) : null}
      <p>{withNames(miss.text)}</p>
      {large && miss.miss_mm > 0 ? <p class="small soft">{nearest.lead}</p> : null}
    </div>
  );
}
