import { angle, type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import { Figure } from './figure';

/**
 * How much of a wave goes once, twice, ... round the part, as its whole height (twice the amplitude); and which waves
 * these points could not have seen.
 */
export interface PerTurnProps {
  name: string;
  harmonics: readonly { order: number; amplitude_um: number; phase_deg: number }[];
  blind_orders: readonly number[];
  how: HowShown;
  /** The highest order shown. */
  most?: number;
}

export function PerTurn({ name, harmonics, blind_orders, how, most = 6 }: PerTurnProps) {
  const seen = harmonics.filter((one) => one.order <= most);
  const greatest = Math.max(...seen.map((one) => one.amplitude_um), 0.001);
  const blind = blind_orders.filter((order) => order <= most && !seen.some((one) => one.order === order));
  const orders = [...seen.map((one) => one.order), ...blind].sort((a, b) => a - b);
  const height = (um: number) => lengthOfMm((2 * um) / 1000, how);
  const rows = orders.map((order) => {
    const found = seen.find((one) => one.order === order);
    return { order, found, word: words.pictures.perTurn.times(order) };
  });
  return (
    <Figure
      name={name}
      kind="per-turn"
      says={rows
        .map(({ word, found }) => `${word}: ${found ? height(found.amplitude_um) : words.pictures.perTurn.blind}.`)
        .join(' ')}
      table={{
        head: [words.pictures.perTurn.pattern, words.pictures.perTurn.height, words.pictures.perTurn.high],
        rows: rows.map(({ word, found }) =>
          found ? [word, height(found.amplitude_um), angle(found.phase_deg)] : [word, words.pictures.perTurn.blind, ''],
        ),
      }}
    >
      <div class="per-turn" aria-hidden="true">
        {rows.map(({ order, found, word }) => (
          <div class="per-turn-row" key={order}>
            <span>{word}</span>
            {found ? (
              <span class="per-turn-bar" style={{ width: `${(100 * found.amplitude_um) / greatest}%` }} />
            ) : (
              <span class="per-turn-blind" />
            )}
            <span class={found ? 'digits' : 'soft small'}>
              {found ? height(found.amplitude_um) : words.pictures.perTurn.blind}
            </span>
          </div>
        ))}
      </div>
    </Figure>
  );
}
