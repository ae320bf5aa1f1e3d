import { useState } from 'preact/hooks';
import type { Band, Insert, Unit } from '../api/schema';
import { Choice } from '../shell/choice';
import { length } from '../show/length';
import { shop } from '../state/shop';
import { words } from '../words';
import { BandForm } from './band_form';
import { Corners } from './corner_lines';
import './edges.css';
import { InsertForm } from './insert_form';
import { ThingRoom } from './list';

type Which = 'inserts' | 'bands';
const FINE = 10_000;

/** What cuts, corner by corner, and what keeps the part from ringing. */
export function Edges() {
  const { edges } = words.shop;
  const [which, setWhich] = useState<Which>('inserts');
  const unit = shop.value?.settings.default_unit ?? 'mm';
  const before = (
    <Choice
      label={edges.which}
      value={which}
      options={(['inserts', 'bands'] as const).map((value) => ({ value, label: edges[value] }))}
      onChange={setWhich}
    />
  );
  if (which === 'bands') {
    return (
      <ThingRoom<Band>
        key="bands"
        room="edges"
        before={before}
        things={shop.value?.bands ?? []}
        none={edges.no_bands}
        add={edges.add_band}
        about={(band) => aboutBand(band, unit)}
        form={(one, onDone) => <BandForm band={one} onDone={onDone} />}
      />
    );
  }
  const inserts = shop.value?.inserts ?? [];
  return (
    <ThingRoom<Insert>
      key="inserts"
      room="edges"
      before={before}
      things={inserts}
      none={edges.no_inserts}
      add={edges.add_insert}
      about={aboutInsert}
      form={(one, onDone) => <InsertForm insert={one} onDone={onDone} />}
    >
      {inserts
        .filter((insert) => insert.active)
        .map((insert) => (
          <Corners key={insert.id} insert={insert} />
        ))}
    </ThingRoom>
  );
}

function aboutInsert(insert: Insert): string {
  const radius = length(insert.nose_radius_nm, { unit: 'mm', resolution_nm: FINE });
  return words.shop.edges.insert(radius, String(insert.max_speed_m_per_min));
}

function aboutBand(band: Band, unit: Unit): string {
  const { edges } = words.shop;
  const said = (nm: number) => length(nm, { unit, resolution_nm: 100_000 });
  const { least_diameter_nm: least, most_diameter_nm: most } = band;
  const range = least && most ? edges.band(said(least), said(most)) : edges.band_unknown;
  return band.hook ? `${edges.hangs(band.hook)} · ${range}` : range;
}
