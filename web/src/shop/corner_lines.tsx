import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Corner, EdgeCondition, Insert } from '../api/schema';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Choice } from '../shell/choice';
import { loadShop, shop } from '../state/shop';
import { words } from '../words';
import { type CornerLine, cornerAfter, cornerInUse, cornersOf } from './corners';

const CONDITIONS: readonly EdgeCondition[] = ['sharp', 'worn', 'chipped'];

const put = (insert: Insert, line: CornerLine, change: Partial<Corner>) => {
  const start: Corner = line.corner ?? {
    id: newId(),
    insert_id: insert.id,
    number: line.number,
    condition: 'sharp',
    used_m: 0,
    note: '',
  };
  const body = { ...start, ...change };
  return call('put', '/corners/{corner_id}', { path: { corner_id: body.id }, body });
};

/** What each corner of an insert has cut, and the way to the next one. */
export function Corners({ insert }: { insert: Insert }) {
  const { edges } = words.shop;
  const saving = useSaving();
  const [said, setSaid] = useState('');
  const all = shop.value?.corners ?? [];
  const lines = cornersOf(insert, all);
  const most_m = Math.max(1, ...all.map((one) => one.used_m ?? 0));
  const inUse = cornerInUse(lines);
  const next = cornerAfter(lines, inUse);
  const change = (work: () => Promise<unknown>, then = '') =>
    saving.run(async () => {
      await work();
      await loadShop();
      setSaid(then);
    });
  const turn = () => {
    if (!inUse || !next) return;
    void change(
      async () => {
        await put(insert, inUse, { condition: 'worn' });
        await put(insert, next, {});
      },
      edges.turned(inUse.number, next.number),
    );
  };
  const renew = () =>
    change(async () => {
      for (const line of lines) if (line.corner) await put(insert, line, { condition: 'sharp', used_m: 0 });
    });
  return (
    <section class="corners" aria-label={edges.corners_of(insert.name)}>
      <h2>{edges.corners_of(insert.name)}</h2>
      <ul>
        {lines.map((line) => (
          <li key={line.number} class="corner">
            <span class="corner-name">
              {edges.corner(line.number)}
              {line.number === inUse?.number ? <strong> · {edges.in_use}</strong> : null}
            </span>
            <span class="corner-bar" aria-hidden="true">
              <span style={{ width: `${(100 * line.used_m) / most_m}%` }} />
            </span>
            <span class="corner-used figures">
              {line.used_m > 0 ? edges.used(line.used_m.toFixed(0)) : edges.untouched}
            </span>
            <Choice
              label={edges.condition_of(line.number)}
              value={line.condition}
              options={CONDITIONS.map((value) => ({ value, label: edges.conditions[value] }))}
              onChange={(condition) => void change(() => put(insert, line, { condition }))}
            />
          </li>
        ))}
      </ul>
      <p class="small soft">{edges.bar}</p>
      <div class="row">
        {next ? (
          <button type="button" disabled={saving.busy} onClick={turn}>
            {edges.turn}
          </button>
        ) : (
          <p class="doubt">{edges.none_left}</p>
        )}
        {lines.some((line) => line.corner) ? (
          <button type="button" class="plain" disabled={saving.busy} onClick={renew}>
            {edges.renew}
          </button>
        ) : null}
      </div>
      <p role="status">{said}</p>
      <TroubleLine text={saving.trouble?.message} />
    </section>
  );
}
