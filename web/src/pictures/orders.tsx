import { useId } from 'preact/hooks';
import { words } from '../words';
import { Figure, useWidth } from './figure';
import { niceStep } from './ladder';
import './orders.css';
import { type FeltPoint, type OrderAxes, type OrderRow, orderAxes, outTo } from './order_axes';

/** What each wheel order beats at each speed, as a band, and the pulsation that was felt as a point among them. */
export interface OrdersProps {
  name: string;
  table: readonly OrderRow[];
  felt?: FeltPoint;
  /** The order that is drawn full; the others stand back. */
  lit?: number | null;
  height?: number;
}

const MARGIN = { left: 44, right: 108, top: 28, bottom: 44 };
const NOTHING: FeltPoint = { speed_km_per_h: null, hz: null, u_hz: 0 };

export function Orders({ name, table, felt = NOTHING, lit = null, height = 340 }: OrdersProps) {
  const [frame, width] = useWidth(640);
  const clip = useId();
  const axes = orderAxes(table, felt);
  const right = width - MARGIN.right;
  const bottom = height - MARGIN.bottom;
  const x = (speed: number) => MARGIN.left + (speed / axes.most_km_per_h) * (right - MARGIN.left);
  const y = (hz: number) => bottom - (hz / axes.most_hz) * (bottom - MARGIN.top);
  return (
    <Figure name={name} kind="orders" says={saysOf(axes, felt)} table={tableOf(axes)}>
      <div ref={frame}>
        <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
          <clipPath id={clip}>
            <rect x={MARGIN.left} y={MARGIN.top} width={right - MARGIN.left} height={bottom - MARGIN.top} />
          </clipPath>
          <Grid axes={axes} x={x} y={y} right={right} bottom={bottom} />
          <g clip-path={`url(#${clip})`}>
            {axes.bands.map((band) => {
              const end = outTo(band.rows, axes.most_km_per_h);
              if (!end) return null;
              const [to, low, high, middle] = [x(axes.most_km_per_h), y(end.low_hz), y(end.high_hz), y(end.hz)];
              return (
                <g key={band.order} class={`order-band${band.order === lit ? ' order-lit' : ''}`}>
                  <path d={`M${x(0)} ${y(0)}L${to} ${low}V${high}Z`} />
                  <path class="order-middle" d={`M${x(0)} ${y(0)}L${to} ${middle}`} />
                </g>
              );
            })}
          </g>
          {axes.bands.map((band) => {
            const at_side = band.leaves.hz < axes.most_hz;
            return (
              <text
                key={band.order}
                class={`trace-word${band.order === lit ? ' order-word-lit' : ''}`}
                x={at_side ? right + 8 : x(band.leaves.speed_km_per_h)}
                y={at_side ? y(band.leaves.hz) + 5 : MARGIN.top - 8}
                text-anchor={at_side ? 'start' : 'middle'}
              >
                {at_side ? words.pictures.perTurn.times(band.order) : `${band.order}×`}
              </text>
            );
          })}
          <Felt felt={felt} x={x} y={y} right={right} bottom={bottom} />
        </svg>
      </div>
    </Figure>
  );
}

type Along = (value: number) => number;

function Grid({ axes, x, y, right, bottom }: { axes: OrderAxes; x: Along; y: Along; right: number; bottom: number }) {
  const { orders } = words.pictures;
  const speeds = ticks(axes.most_km_per_h, (right - MARGIN.left) / 52);
  const rates = ticks(axes.most_hz, (bottom - MARGIN.top) / 44);
  return (
    <g>
      {rates.map((hz) => (
        <g key={hz}>
          <path d={`M${MARGIN.left} ${y(hz)}H${right}`} class="trace-grid" />
          <text x={MARGIN.left - 6} y={y(hz) + 4} text-anchor="end" class="trace-word">
            {hz}
          </text>
        </g>
      ))}
      {speeds.map((speed) => (
        <g key={speed}>
          <path d={`M${x(speed)} ${bottom}v5`} class="order-tick" />
          <text x={x(speed)} y={bottom + 19} text-anchor="middle" class="trace-word">
            {speed}
          </text>
        </g>
      ))}
      <text x={right} y={bottom + 37} text-anchor="end" class="trace-word">
        {orders.speed}
      </text>
      <text x="0" y="12" class="trace-word">
        {orders.rate}
      </text>
    </g>
  );
}

/** The point with its uncertainty; a line across where one of its sides is not known. */
function Felt({ felt, x, y, right, bottom }: { felt: FeltPoint; x: Along; y: Along; right: number; bottom: number }) {
  const { speed_km_per_h: speed, hz, u_hz } = felt;
  if (speed === null && hz === null) return null;
  if (speed === null || hz === null) {
    const line = speed === null ? `M${MARGIN.left} ${y(hz ?? 0)}H${right}` : `M${x(speed)} ${MARGIN.top}V${bottom}`;
    return <path d={line} class="felt-line" />;
  }
  const reach = Math.max(6, Math.abs(y(hz) - y(hz + 2 * u_hz)));
  return (
    <g class="felt-point" transform={`translate(${x(speed)} ${y(hz)})`}>
      <path d={`M0 ${-reach}V${reach}M-7 ${-reach}H7M-7 ${reach}H7`} />
      <circle r="7" />
    </g>
  );
}

function ticks(most: number, room: number): number[] {
  const step = niceStep(most, Math.max(2, Math.floor(room)));
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, i) => Number((i * step).toFixed(6)));
}

const shown = (hz: number) => (hz < 10 ? hz.toFixed(1) : hz.toFixed(0));

function saysOf(axes: OrderAxes, felt: FeltPoint): string {
  const { orders, perTurn } = words.pictures;
  const said = axes.bands.flatMap(({ order, rows }) => {
    const end = outTo(rows, felt.speed_km_per_h ?? 100);
    return end ? [orders.says(perTurn.times(order), shown(end.low_hz), shown(end.high_hz))] : [];
  });
  const at = orders.at(String(Math.round(felt.speed_km_per_h ?? 100)));
  return [at, ...said, felt.hz === null ? '' : orders.felt(shown(felt.hz))].filter(Boolean).join(' ');
}

function tableOf(axes: OrderAxes) {
  const { orders, perTurn } = words.pictures;
  const speeds = [...new Set(axes.bands.flatMap((band) => band.rows.map((row) => row.speed_km_per_h)))];
  return {
    head: [orders.speed, ...axes.bands.map((band) => perTurn.times(band.order))],
    rows: speeds.map((speed) => [
      String(speed),
      ...axes.bands.map((band) => {
        const row = band.rows.find((one) => one.speed_km_per_h === speed);
        return row ? `${shown(row.low_hz)}–${shown(row.high_hz)}` : '';
      }),
    ]),
  };
}
