import type { ComponentChildren } from 'preact';
import type { JobFile, Lathe, Part, StackAdvice } from '../api/schema';
import { usePegboard } from '../pegboard/board_state';
import { Screen } from '../shell/screen';
import { shop } from '../state/shop';
import { words } from '../words';
import { useAdvice } from './advice';
import { Nearest } from './nearest';
import { missingOf } from './seat_fields';
import { SeatForm } from './seat_form';
import { Stacks } from './stacks';

interface Props {
  file: JobFile;
  part: Part;
  which: ComponentChildren;
}

/** The way to a stack: what is still missing for it first, then the stack, or what keeps there from being one. */
export function StackStep({ file, part, which }: Props) {
  const { answer: advice, trouble } = useAdvice(file, part);
  const board = usePegboard();
  const lathe = shop.value?.lathes.find((one) => one.id === file.job.lathe_id) ?? null;
  if (trouble && !advice) {
    return (
      <Plain which={which}>
        <p class="trouble" role="alert">
          {trouble.message}
        </p>
      </Plain>
    );
  }
  if (!advice || !board) {
    return (
      <Plain which={which}>
        <p class="soft">{words.mount.loading}</p>
      </Plain>
    );
  }
  const missing = missingOf(advice.missing);
  if (missing.noLathe || missing.lathe.length > 0)
    return <LatheFirst {...{ file, lathe, which }} wants={missing.lathe} />;
  if (missing.seat.length > 0) return <SeatForm key={part.id} {...{ file, part, which }} missing={missing.seat} />;
  if (missing.noPieces) return <PiecesFirst which={which} />;
  return <Found {...{ file, part, which, advice, lathe }} />;
}

function Found({ file, part, which, advice, lathe }: Props & { advice: StackAdvice; lathe: Lathe | null }) {
  if (!lathe) return null;
  if (advice.stacks.length === 0) return <Nearest {...{ file, part, which, lathe }} nearest={advice.nearest} />;
  return <Stacks {...{ file, part, which, lathe }} stacks={advice.stacks} />;
}

function Plain({
  which,
  next,
  children,
}: {
  which: ComponentChildren;
  next?: ComponentChildren;
  children: ComponentChildren;
}) {
  return (
    <Screen name="mount" title={words.mount.title} next={next}>
      {which}
      {children}
    </Screen>
  );
}

interface LatheProps {
  file: JobFile;
  lathe: Lathe | null;
  wants: readonly string[];
  which: ComponentChildren;
}

function LatheFirst({ file, lathe, wants, which }: LatheProps) {
  const { mount } = words;
  const fields = wants.map((name) => mount.lathe_fields[name] ?? name).join(', ');
  const [to, label, text] = lathe
    ? ['/shop/lathes', mount.to_lathe, mount.lathe_wants(lathe.name, fields)]
    : [`/jobs/${file.job.number}/arrival`, mount.choose_lathe, mount.no_lathe];
  return (
    <Plain
      which={which}
      next={
        <a class="button main" href={to}>
          {label}
        </a>
      }
    >
      <p>{text}</p>
    </Plain>
  );
}

function PiecesFirst({ which }: { which: ComponentChildren }) {
  return (
    <Plain
      which={which}
      next={
        <a class="button main" href="/shop/pegboard">
          {words.mount.to_pegboard}
        </a>
      }
    >
      <p>{words.mount.no_pieces}</p>
    </Plain>
  );
}
