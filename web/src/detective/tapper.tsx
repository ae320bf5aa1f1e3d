import { useState } from 'preact/hooks';
import { Choice } from '../shell/choice';
import { words } from '../words';
import type { Taking } from './take_over';
import { FEWEST_TAPS, frequencyOf, withTap } from './taps';

const EVERY = ['1', '2', '4'] as const;
type Every = (typeof EVERY)[number];

/** Pulses counted with the thumb: a frequency with how sure it is, growing surer with each tap. */
export function Tapper({ taking }: { taking: Taking | null }) {
  const { tap, per_second, give_or_take, take } = words.detective;
  const [times, setTimes] = useState<readonly number[]>([]);
  const [every, setEvery] = useState<Every>('1');
  const found = frequencyOf(times, Number(every));
  const beat = () => setTimes((now) => withTap(now, performance.now()));
  const missing = FEWEST_TAPS - times.length;
  return (
    <section class="tool" aria-label={tap.title}>
      <h2>{tap.title}</h2>
      <p class="small soft">
        {tap.lead} <strong>{tap.safe}</strong>
      </p>
      <button
        type="button"
        class="tap-here"
        onPointerDown={beat}
        onKeyDown={(event) => {
          if (event.repeat && (event.key === 'Enter' || event.key === ' ')) event.preventDefault();
        }}
        // A press that no pointer made: a key, or a reader of the screen.
        onClick={(event) => {
          if (event.detail === 0) beat();
        }}
      >
        {tap.button}
      </button>
      <div class="tap-found" aria-live="polite">
        {found ? (
          <>
            <p>
              <span class="figures large-figure">{found.hz.toFixed(1)}</span>{' '}
              <span class="figures">{give_or_take((2 * found.u_hz).toFixed(2))}</span> {per_second}
            </p>
            <p class="small soft figures">{tap.taps(found.taps, found.seconds.toFixed(1))}</p>
          </>
        ) : (
          <p class="soft">{tap.need(missing)}</p>
        )}
      </div>
      <Choice
        shown
        label={tap.every}
        value={every}
        options={EVERY.map((value) => ({ value, label: tap.everies[value] }))}
        onChange={(value) => {
          setEvery(value);
          setTimes([]);
        }}
      />
      <p class="small soft">{tap.fast}</p>
      <div class="row">
        {found && taking ? (
          <button type="button" disabled={taking.saving.busy} onClick={() => taking.take(found.hz)}>
            {take}
          </button>
        ) : null}
        {times.length > 0 ? (
          <button type="button" class="plain" onClick={() => setTimes([])}>
            {tap.again}
          </button>
        ) : null}
      </div>
    </section>
  );
}
