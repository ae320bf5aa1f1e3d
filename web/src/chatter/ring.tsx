import { Opens } from '../controls/opens';
import { ask, place } from '../route/router';
import { Choice } from '../shell/choice';
import { percent } from '../show/length';
import { words } from '../words';
import { FigureField } from './counted';
import type { Figures, Told } from './figures';
import { MarksWay } from './marks';
import type { BySize } from './reckon';
import { TapWay } from './tap';
import type { Tone, Way } from './tones';
import type { MarksRead } from './use_marks';
import type { Listening } from './use_taps';

export const WAYS: readonly Way[] = ['size', 'tap', 'marks'];
export const wayHere = (): Way => WAYS.find((one) => one === place.value.query.way) ?? 'size';

interface Props {
  way: Way;
  /** What is counted with, and where it was had from. */
  hz: number | null;
  by: Way | null;
  by_size: BySize | null;
  told: Told;
  figures: Figures;
  taps: Listening;
  tone: Tone | null;
  band_times: number | null;
  marks: MarksRead;
  speeds: readonly number[];
}

/** Three ways to the disc's tone, the best one that told something counts. */
export function RingSource(props: Props) {
  const { way, hz, by, by_size, told, taps, tone, band_times, marks, speeds } = props;
  const { ring: said } = words.chatter;
  return (
    <section class="chatter-block" aria-label={said.title}>
      <h2>{said.title}</h2>
      {hz === null ? null : (
        <p>
          <span class="chatter-second figures">{said.hz(hz.toFixed(0))}</span> {said.counted}
        </p>
      )}
      <Choice
        label={said.way}
        value={way}
        options={WAYS.map((value) => ({ value, label: said.ways[value] }))}
        onChange={(value) => ask({ way: value === 'size' ? '' : value })}
      />
      {by !== null && by !== way ? (
        <p class="soft">{way === 'marks' && marks.found ? said.not_of_disc : said.none_yet}</p>
      ) : null}
      {way === 'size' ? (
        <>
          {by_size ? (
            <p class="soft">
              {said.size(by_size.free_hz.toFixed(0), by_size.clamped_hz.toFixed(0), percent(by_size.hat_raises - 1))}
            </p>
          ) : null}
          {by_size && !by_size.thin ? <p class="soft">{said.thick}</p> : null}
          <Opens title={said.size_fields}>
            {(['outer_mm', 'inner_mm', 'thickness_mm'] as const).map((name) => (
              <FigureField key={name} name={name} told={told} />
            ))}
          </Opens>
        </>
      ) : null}
      {way === 'tap' ? <TapWay taps={taps} tone={tone} band_times={band_times} /> : null}
      {way === 'marks' ? <MarksWay marks={marks} speeds={speeds} /> : null}
    </section>
  );
}
