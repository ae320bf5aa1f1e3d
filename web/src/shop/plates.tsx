import type { TaperPlate, Unit } from '../api/schema';
import { Caution } from '../controls/caution';
import { length } from '../show/length';
import { shop } from '../state/shop';
import { words } from '../words';
import { ThingRoom } from './list';
import { PlateForm } from './plate_form';

/** Plates that are thicker on one side, to tilt a part true on its hub. */
export function Plates() {
  const { plates } = words.shop;
  const unit = shop.value?.settings.default_unit ?? 'mm';
  return (
    <ThingRoom<TaperPlate>
      room="plates"
      things={shop.value?.taper_plates ?? []}
      none={plates.none}
      add={plates.add}
      about={(plate) => aboutPlate(plate, unit)}
      form={(plate, onDone) => <PlateForm plate={plate} onDone={onDone} />}
    >
      <Caution title={plates.caution}>
        <p>{plates.caution_text}</p>
      </Caution>
    </ThingRoom>
  );
}

const UM = 1000;

function aboutPlate(plate: TaperPlate, unit: Unit): string {
  const taper = length(plate.taper_um * UM, { unit, resolution_nm: UM });
  const about = words.shop.plates.about(taper, length(plate.diameter_nm, { unit, resolution_nm: 1e6 }), plate.studs);
  return plate.hook ? `${words.shop.edges.hangs(plate.hook)} · ${about}` : about;
}
