import type { ComponentChildren } from 'preact';
import { Behind, type Source } from './behind';

interface Props {
  title: string;
  /** The largest number of it, with its unit. */
  figure?: string | undefined;
  /** What that number is. */
  says?: string | undefined;
  /** The same of the week before. */
  before?: string | undefined;
  /** How it is counted. */
  basis?: string | undefined;
  /** The jobs that it was counted in. */
  sources?: readonly Source[];
  /** Where something can be done about it. */
  ways?: ComponentChildren;
  children?: ComponentChildren;
}

/** One question of the week: its largest number first, then the picture; what it rests on opens under them. */
export function WeekPart({ title, figure, says, before, basis, sources = [], ways, children }: Props) {
  return (
    <section class="week-part" aria-label={title}>
      <h2>{title}</h2>
      {figure || says ? (
        <div class="week-largest">
          {figure ? <p class="week-figure figures">{figure}</p> : null}
          {says ? <p class="week-says">{says}</p> : null}
          {before ? <p class="soft">{before}</p> : null}
        </div>
      ) : null}
      {children}
      <Behind basis={basis} sources={sources} />
      {ways ? <p class="week-ways">{ways}</p> : null}
    </section>
  );
}

export const WayTo = ({ to, name }: { to: string; name: string }) => (
  <a class="button plain" href={to}>
    {name}
  </a>
);
