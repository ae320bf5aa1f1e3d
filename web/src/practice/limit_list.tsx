import { lengthOfMm } from '../show/length';
import { words } from '../words';
import type { BenchMake } from './model';
import { howOf, micrometres } from './numbers';

/** What the maker prints of the part. */
export function LimitList({ make }: { make: BenchMake }) {
  const { limits: said, um } = words.practice_bench;
  const rows = [
    [said.new, lengthOfMm(make.new_thickness_mm, howOf(0.01))],
    [said.machine_to, lengthOfMm(make.machine_to_mm, howOf(0.01))],
    [said.discard, lengthOfMm(make.discard_mm, howOf(0.01))],
    [said.variation, `${micrometres(make.variation_um)} ${um}`],
    [said.runout, `${micrometres(make.runout_um)} ${um}`],
  ] as const;
  return (
    <section class="bench-limits" aria-label={said.title}>
      <h2>{said.title}</h2>
      <dl>
        {rows.map(([name, value]) => (
          <div key={name}>
            <dt class="soft">{name}</dt>
            <dd class="figures">{value}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
