import type { ForeseenPass, Part } from '../api/schema';
import { lengthOfMm } from '../show/length';
import { shop } from '../state/shop';
import { words } from '../words';
import { useNow } from './awake';
import { BandRun } from './band_run';
import { clockText } from './dials';
import { bandWidth, ringOf } from './equipment';
import { RingRun } from './ring_run';
import { cutting_ms, type Run } from './sequence';

interface Props {
  run: Run | null;
  pass: ForeseenPass;
  part: Part;
}

const SOON_S = 20;

/** The pass as it runs: how long it still takes, large; where the tools should be; that nobody walks away. */
export function PassClock({ run, pass, part }: Props) {
  const { clock } = words.guide;
  const going = run !== null && run.outcome === null && run.paused_since_ms === null;
  const paused = run !== null && run.outcome === null && run.paused_since_ms !== null;
  const ring = ringOf(part);
  const band_mm = bandWidth(part);
  const now = useNow(going);
  const elapsed_s = run ? cutting_ms(run, now) / 1000 : 0;
  const left_s = Math.ceil(pass.time_s - elapsed_s);
  const over = left_s < 0;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const to_edge_mm = Math.max(0, ((pass.time_s - elapsed_s) * pass.rpm * pass.feed_mm_per_rev) / 60);
  const place = over ? clock.past : left_s <= SOON_S ? clock.soon : clock.by_clock;
  return (
    <div class="clock">
      <div class="clock-face">
        <p class="clock-left figures guide-figure" role="timer" aria-label={over ? clock.over : clock.left}>
          {over ? '+' : ''}
          {clockText(left_s)}
        </p>
        <p class="guide-unit">
          {paused ? <strong>{words.guide.paused}. </strong> : null}
          {over ? clock.over : clock.left}, <span class="figures">{clock.of(clockText(pass.time_s))}</span>
        </p>
        <p class="clock-stay">{clock.stay}</p>
        {paused ? <p class="clock-place">{words.guide.paused_text}</p> : null}
        <p class={left_s <= SOON_S ? 'clock-place clock-end' : 'clock-place'}>
          {paused ? '' : place}
          {!over && !paused && (ring || band_mm) ? (
            <span class="figures soft">
              {' '}
              {clock.from_edge(lengthOfMm(to_edge_mm, { unit, resolution_nm: 1_000_000 }))}
            </span>
          ) : null}
        </p>
        <p class="soft">{clock.end}</p>
      </div>
      {ring && band_mm === null ? <RingRun ring={ring} pass={pass} elapsed_s={elapsed_s} /> : null}
      {band_mm === null ? null : <BandRun width_mm={band_mm} pass={pass} elapsed_s={elapsed_s} />}
    </div>
  );
}
