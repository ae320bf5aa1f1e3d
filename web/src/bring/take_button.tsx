import type { useBringing } from './bringing';

interface Props {
  said: { look: string; add: (n: number) => string };
  /** How many lines would be taken: none before the table was looked at, or while any is refused. */
  takes: number;
  bringing: Pick<ReturnType<typeof useBringing<unknown>>, 'saving' | 'empty' | 'look' | 'take'>;
}

/** The next step of a table of which all lines are taken or none: a look first, then taking them. */
export function TakeButton({ said, takes, bringing }: Props) {
  const { saving, empty, look, take } = bringing;
  return (
    <button type="button" class="main" disabled={saving.busy || empty} onClick={takes > 0 ? take : look}>
      {takes > 0 ? said.add(takes) : said.look}
    </button>
  );
}
