import { useEffect } from 'preact/hooks';
import { length, NM_PER_IN, NM_PER_MM } from '../show/length';
import { sealed } from '../state/job';
import { instruments, shop } from '../state/shop';
import { words } from '../words';
import { chooseInstrument, instrument, plan, tab } from './at_bench';
import { askZero, zeroInWords } from './zero_check';

/** In one line: how this is gone round, with what, and how its zero stood. */
export function SetupLine({ onChange }: { onChange: () => void }) {
  const current = plan.value;
  const used = instrument.value;
  useEffect(() => {
    if (used) askZero(used.id).catch(() => undefined);
  }, [used?.id]);
  if (!current) return null;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const { setup } = words.measure;
  const distances = current.circles_from_edge_nm
    .map((nm) => length(nm, { unit, resolution_nm: unit === 'mm' ? NM_PER_MM : NM_PER_IN / 20 }))
    .join(', ');
  const round = tab.value.round
    ? setup.line(current.points, words.trade.turning[current.turning], setup.atEdge(distances))
    : '';
  const place = tab.value.name.startsWith('runout') ? words.trade.runoutPlace[current.runout_place] : '';
  const temperature = current.part_temperature_c == null ? '' : setup.part(current.part_temperature_c);
  const gauge = used ? `${used.name}, ${zeroInWords(used)}` : `${setup.instrument} ${setup.noInstrument}`;
  return (
    <div class="setup-line">
      <p class="small soft">{[round, place, gauge, temperature].filter(Boolean).join(' · ')}</p>
      {!sealed.value && !tab.value.round && <OtherInstrument />}
      {!sealed.value && tab.value.round && (
        <button type="button" class="plain small" aria-label={setup.change} onClick={onChange}>
          {words.shell.change}
        </button>
      )}
    </div>
  );
}

/** What the plan does not name is chosen here, for this tablet. */
function OtherInstrument() {
  const fits = instruments.value.filter((one) => one.kind === tab.value.kind);
  if (fits.length < 2) return null;
  return (
    <label class="other-instrument">
      <span class="heard">{words.measure.setup.instrument}</span>
      <select
        value={instrument.value?.id ?? ''}
        onChange={(event) => chooseInstrument(tab.value.name, event.currentTarget.value)}
      >
        {fits.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
    </label>
  );
}
