import { Opens } from '../controls/opens';
import { digitsOfMm, lengthOfMm } from '../show/length';
import { words } from '../words';
import { instrumentOf } from './measuring';
import type { BenchInstrument } from './model';
import { howOf, whole } from './numbers';
import { type BenchReading, spreadOf } from './readings';

interface Props {
  readings: readonly BenchReading[];
  instruments: readonly BenchInstrument[];
}

/** How the readings lie, before the cut and after it, and all of them in a list. */
export function ReadingList({ readings, instruments }: Props) {
  const { measure: said } = words.practice_bench;
  if (readings.length === 0) return null;
  const after = readings.filter((one) => one.cut);
  const before = readings.filter((one) => !one.cut);
  return (
    <section class="bench-readings" aria-label={said.list}>
      <h2>{said.list}</h2>
      {before.length > 0 ? <Spread readings={before} instruments={instruments} word={said.before} /> : null}
      {after.length > 0 ? <Spread readings={after} instruments={instruments} word={said.after} /> : null}
      <Opens title={said.count(readings.length)}>
        <table>
          <thead>
            <tr>
              <th scope="col">{said.number}</th>
              <th scope="col" class="figures">
                {said.angle}
              </th>
              <th scope="col" class="figures">
                {said.radius}
              </th>
              <th scope="col" class="figures">
                {said.value}
              </th>
            </tr>
          </thead>
          <tbody>
            {readings.map((one, i) => (
              <tr key={one.number}>
                <td>{i + 1}</td>
                <td class="figures">{whole(one.angle_deg)}°</td>
                <td class="figures">{whole(one.radius_mm)}</td>
                <td class="figures">{digitsOfMm(one.shown_mm, howOf(instrumentOf(instruments, one.instrument_id)))}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Opens>
    </section>
  );
}

function Spread({ readings, instruments, word }: Props & { word: string }) {
  const { measure: said } = words.practice_bench;
  const spread = spreadOf(readings);
  if (!spread) return null;
  const how = howOf(Math.max(...readings.map((one) => instrumentOf(instruments, one.instrument_id))));
  const apart = lengthOfMm(spread.highest_mm - spread.lowest_mm, how);
  return (
    <dl class="bench-spread" aria-label={word}>
      <div>
        <dt class="soft small">
          {said.lowest}, {word}
        </dt>
        <dd class="figures">{lengthOfMm(spread.lowest_mm, how)}</dd>
      </div>
      <div>
        <dt class="soft small">{said.highest}</dt>
        <dd class="figures">{lengthOfMm(spread.highest_mm, how)}</dd>
      </div>
      <div>
        <dt class="soft small">{said.apart}</dt>
        <dd class="figures">{apart}</dd>
      </div>
    </dl>
  );
}
