import type { PulsationAdvice } from '../api/schema';
import { percent } from '../show/length';
import { words } from '../words';

/** Under this a rhythm is not worth a line of its own. */
const LEAST_SHOWN = 0.005;

/** Each rhythm against what was felt: what it should be, how far off that is, and how well it fits. */
export function Fits({ orders }: { orders: PulsationAdvice['orders'] }) {
  const { detective } = words;
  const shown = orders.filter((fit, i) => i < 2 || fit.probability >= LEAST_SHOWN);
  if (shown.length === 0) return null;
  return (
    <section aria-label={detective.fits}>
      <h2>{detective.fits}</h2>
      <ul class="fits">
        {shown.map((fit) => (
          <li key={fit.order}>
            <span class="fit-name">
              {fit.order === 0 ? detective.no_wheel : words.pictures.perTurn.times(fit.order)}
            </span>
            <span class="fit-p figures">{percent(fit.probability)}</span>
            <FitBar p={fit.probability} />
            <span class="fit-why small soft figures">
              {fit.expected_hz === null ? '' : detective.should(fit.expected_hz.toFixed(1))}
              {fit.off_percent === null ? '' : detective.off(fit.off_percent)}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function FitBar({ p }: { p: number }) {
  return (
    <span class="fit-track" aria-hidden="true">
      <span class="fit-bar" style={{ width: `${100 * p}%` }} />
    </span>
  );
}
