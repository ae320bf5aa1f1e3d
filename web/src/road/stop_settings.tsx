import { useState } from 'preact/hooks';
import type { Part, RoadAdvice } from '../api/schema';
import { Field } from '../controls/field';
import { Opens } from '../controls/opens';
import { ask, place } from '../route/router';
import { words } from '../words';
import { WISHES, type WishName, wished, wishesFor } from './wish';

interface Props {
  advice: RoadAdvice;
  part: Part;
}

/** The stop that all discs are held against: what is typed stands in the address, what is not is a usual figure, said. */
export function StopSettings({ advice, part }: Props) {
  const { settings } = words.road;
  const [texts, setTexts] = useState<Partial<Record<WishName, string>>>(() => ({ ...place.value.query }));
  const type = (name: WishName) => (text: string) => {
    setTexts((now) => ({ ...now, [name]: text }));
    if (wished(name, text) !== 'wrong') ask({ [name]: text.trim() });
  };
  const names = wishesFor(part);
  if (names.length === 0) return null;
  const { stop } = advice;
  const usual: Record<WishName, string> = {
    speed: stop.speed_km_per_h.toFixed(0),
    stops: String(stop.stops),
    interval: stop.interval_s.toFixed(0),
    share: (100 * stop.axle_share).toFixed(0),
    cheek: '',
  };
  return (
    <Opens title={settings.title}>
      {names.map((name) => {
        const { least, most } = WISHES[name];
        const text = texts[name] ?? '';
        return (
          <Field
            key={name}
            label={settings[name]}
            hint={usual[name]}
            digits
            inputMode="decimal"
            value={text}
            error={wished(name, text) === 'wrong' ? settings.wrong(String(least), String(most)) : undefined}
            onInput={type(name)}
            after={settings.units[name] ? <span class="unit">{settings.units[name]}</span> : null}
          />
        );
      })}
      {advice.assumed.length > 0 ? (
        <div>
          <p>{settings.assumed}</p>
          <ul class="road-assumed small">
            {advice.assumed.map((one) => (
              <li key={one.field}>
                <span class="figures">
                  {Number(one.value.toPrecision(3))} {one.unit}
                </span>{' '}
                {one.basis}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
    </Opens>
  );
}
