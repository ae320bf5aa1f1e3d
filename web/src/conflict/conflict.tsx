import { useState } from 'preact/hooks';
import { Drawer } from '../shell/drawer';
import { words } from '../words';
import './conflict.css';
import { type FieldConflict, type Merge, takeMine } from './merge';

interface Props<T extends object> {
  merge: Merge<T>;
  /** The field in words. */
  nameOf: (path: string) => string;
  /** A value in words. */
  show: (path: string, value: unknown) => string;
  onSettled: (settled: T) => void;
  onClose: () => void;
}

/** Two people changed one field: both values side by side, and a choice for each. Nothing is lost by closing it. */
export function Conflict<T extends object>({ merge, nameOf, show, onSettled, onClose }: Props<T>) {
  const [mine, setMine] = useState<ReadonlySet<string>>(new Set());
  const choose = (conflict: FieldConflict, takesMine: boolean) => {
    const chosen = new Set(mine);
    if (takesMine) chosen.add(conflict.path);
    else chosen.delete(conflict.path);
    setMine(chosen);
  };
  const settle = () => {
    const taken = merge.conflicts.filter((conflict) => mine.has(conflict.path));
    onSettled(taken.reduce((settled, conflict) => takeMine(settled, conflict), merge.merged));
  };
  return (
    <Drawer title={words.conflict.title} onClose={onClose}>
      <p>{words.conflict.lead}</p>
      <ul class="conflicts">
        {merge.conflicts.map((one) => (
          <li key={one.path}>
            <h3>{nameOf(one.path)}</h3>
            <fieldset class="conflict-sides" aria-label={nameOf(one.path)}>
              <button type="button" aria-pressed={!mine.has(one.path)} onClick={() => choose(one, false)}>
                <span class="small">{words.conflict.theirs}</span>{' '}
                <span class="figures">{show(one.path, one.theirs)}</span>
              </button>
              <button type="button" aria-pressed={mine.has(one.path)} onClick={() => choose(one, true)}>
                <span class="small">{words.conflict.mine}</span> <span class="figures">{show(one.path, one.mine)}</span>
              </button>
            </fieldset>
            <p class="small soft">
              {words.conflict.was}: <span class="figures">{show(one.path, one.base)}</span>
            </p>
          </li>
        ))}
      </ul>
      {merge.taken.length > 0 ? <p class="soft">{words.conflict.merged(merge.taken.length)}</p> : null}
      <button type="button" class="main" onClick={settle}>
        {words.conflict.save}
      </button>
    </Drawer>
  );
}
