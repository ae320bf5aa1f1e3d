import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { CalcMountStack, JobFile, Lathe, Part } from '../api/schema';
import { Caution } from '../controls/caution';
import { useSaving } from '../controls/saving';
import { book, hungPiece, withNames } from '../pegboard/board_state';
import { ask } from '../route/router';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { stackWindow } from '../shop/arbor_rules';
import { lengthOfMm } from '../show/length';
import { sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { drawnPiece, drawnRotor } from './drawn';
import { OwnChoice } from './own_choice';
import { useRecordMount } from './record_mount';
import { drawStack } from './stack_geometry';
import { StackList } from './stack_list';
import { StackPicture } from './stack_picture';

interface Props {
  file: JobFile;
  part: Part;
  lathe: Lathe;
  stacks: readonly CalcMountStack[];
  which: ComponentChildren;
}

const RANKS = ['best', 'second', 'third'] as const;
const piecesOf = (ids: readonly string[]) =>
  ids.map((id) => hungPiece(id)?.piece).filter((piece) => piece !== undefined);

/** Up to three stacks to choose from, or an own choice: drawn, and listed hook by hook in the order of assembly. */
export function Stacks({ file, part, lathe, stacks, which }: Props) {
  const { stack } = words.mount;
  const [rank, setRank] = useState('0');
  const [own, setOwn] = useState<string[] | null>(null);
  const [reason, setReason] = useState('');
  const { saving, record } = useRecordMount(file, part, lathe.id);
  const missing = useSaving();
  const chosen = stacks[Number(rank)] ?? stacks[0];
  const ids = own ?? chosen?.pieces ?? [];
  const hubbed = part.construction === 'integral_hub';
  const choose = (value: string) => {
    setRank(value);
    setOwn(value === 'own' ? [...(chosen?.pieces ?? [])] : null);
  };
  return (
    <Screen
      name="mount"
      title={words.mount.title}
      next={
        sealed.value ? null : (
          <button
            type="button"
            class="main"
            disabled={saving.busy || ids.length === 0}
            onClick={() => record(ids, own ? reason : '')}
          >
            {stack.record}
          </button>
        )
      }
      aside={
        <button type="button" onClick={() => ask({ part: part.side, view: 'seat' })}>
          {words.mount.seat.change}
        </button>
      }
    >
      {which}
      <Choice
        label={stack.choice}
        value={own ? 'own' : rank}
        options={[
          ...stacks.map((one, i) => ({
            value: String(i),
            label: stack[RANKS[i] ?? 'third'],
            note: stack.pieces(one.pieces.length),
          })),
          { value: 'own', label: stack.own, note: '' },
        ]}
        onChange={choose}
      />
      <div class="mount">
        <Drawn ids={ids} {...{ file, part, lathe }} />
        <div class="mount-side">
          {own ? (
            <OwnChoice
              job_id={file.job.id}
              ids={own}
              onChange={setOwn}
              reason={reason}
              onReason={setReason}
              trouble={saving.trouble}
            />
          ) : (
            <StackList
              pieces={piecesOf(ids)}
              why={chosen?.why ?? []}
              hubbed={hubbed}
              busy={missing.busy}
              onGone={sealed.value ? undefined : (id) => missing.run(() => book(id, 'missing', file.job.id))}
            />
          )}
          {(saving.trouble && !own) || missing.trouble ? (
            <p class="trouble" role="alert">
              {withNames(saving.trouble?.message ?? missing.trouble?.message ?? '')}
            </p>
          ) : null}
        </div>
        <NutCaution lathe={lathe} />
      </div>
    </Screen>
  );
}

interface DrawnProps {
  ids: readonly string[];
  file: JobFile;
  part: Part;
  lathe: Lathe;
}

/** The drawing of a stack with its length and the way of the nut in words. */
export function Drawn({ ids, file, part, lathe }: DrawnProps) {
  const { stack } = words.mount;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const how = { unit, resolution_nm: unit === 'mm' ? 10_000 : 25_400 };
  const pieces = piecesOf(ids);
  const drawing = drawStack(pieces.map(drawnPiece), drawnRotor(file, part));
  const room = stackWindow({
    thread_start_mm: lathe.thread_start_nm ? lathe.thread_start_nm / 1e6 : null,
    tip_mm: lathe.tip_nm ? lathe.tip_nm / 1e6 : null,
    nut_engagement_mm: (lathe.nut_engagement_nm ?? 0) / 1e6,
  });
  const length = lengthOfMm(drawing.length_mm, how);
  const order = pieces.map((piece) => piece.name).join(', ');
  return (
    <div class="mount-drawing">
      <StackPicture drawing={drawing} lathe={lathe} says={stack.says(order, length)} />
      <p class="nut-way">{stack.thread[lathe.nut_thread ?? 'left']}</p>
      {room ? (
        <p class="small figures">
          {stack.length(length, lengthOfMm(room.least_mm, how), lengthOfMm(room.most_mm, how))}
        </p>
      ) : null}
      {drawing.shapes.some((shape) => shape.guessed) ? <p class="small soft">{stack.not_measured}</p> : null}
    </div>
  );
}

export function NutCaution({ lathe }: { lathe: Lathe }) {
  const { stack } = words.mount;
  return (
    <Caution title={stack.caution_title} source={stack.caution_source}>
      <ul class="cautions">
        {stack.caution.map((one) => (
          <li key={one}>{one}</li>
        ))}
        <li>{stack.thread[lathe.nut_thread ?? 'left']}</li>
      </ul>
    </Caution>
  );
}
