import type { StudyFigure } from '../api/schema';
import { Figure, useWidth } from '../pictures/figure';
import { words } from '../words';
import { COARSE_PERCENT, digits, FINE_PERCENT } from './deviations';

const HEIGHT = 64;
const SIDE = 14;
const LINE = 26;

/** The share with its interval on a line from nought, with the two usual marks. */
export function ShareScale({ share }: { share: StudyFigure }) {
  const said = words.studies.answer;
  const [frame, width] = useWidth(480);
  const low = share.interval?.low95 ?? share.value;
  const high = share.interval?.high95 ?? share.value;
  const end = Math.max(40, Math.min(4 * share.value + 20, 1.1 * high, 1000), 1.15 * share.value);
  const x = (percent: number) => SIDE + (Math.min(percent, end) / end) * (width - 2 * SIDE);
  return (
    <Figure name={said.scale} kind="share" says={said.scale_says(digits(share.value), digits(low), digits(high))}>
      <div ref={frame} class="share-scale">
        <svg width={width} height={HEIGHT} aria-hidden="true">
          <path class="share-line" d={`M${SIDE} ${LINE}H${width - SIDE}`} />
          <path class="share-interval" d={`M${x(low)} ${LINE}H${x(high)}`} />
          {high > end ? <path class="share-beyond" d={`M${width - SIDE - 6} ${LINE - 7}l8 7l-8 7`} /> : null}
          {[0, FINE_PERCENT, COARSE_PERCENT, ...(end >= 100 ? [100] : [])].map((percent) => (
            <g key={percent}>
              <path class="share-tick" d={`M${x(percent)} ${LINE - 12}v24`} />
              <text class="trace-word" x={x(percent)} y={HEIGHT - 8} text-anchor={percent === 0 ? 'start' : 'middle'}>
                {percent} %
              </text>
            </g>
          ))}
          <path class="share-mark" d={`M${x(share.value)} ${LINE - 11}l9 11l-9 11l-9 -11Z`} />
        </svg>
      </div>
      <p class="small soft">{said.scale_marks}</p>
    </Figure>
  );
}
