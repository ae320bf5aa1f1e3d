import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { words } from '../words';
import { ShopFrame } from './frame';
import { burstsOf, CABLE_GAP_MS, type GaugeKey } from './gauge_keys';

const MOST_KEYS = 400;

/** Echoes every key that a gauge's cable sends, and says what of it would be taken as one reading. */
export function Gauge() {
  const { gauge } = words.shop;
  const [keys, setKeys] = useState<GaugeKey[]>([]);
  const [listening, setListening] = useState(true);
  const box = useRef<HTMLElement>(null);
  useLayoutEffect(() => box.current?.focus(), []);
  const heard = (event: KeyboardEvent) => {
    if (event.key === 'Escape') {
      box.current?.blur();
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const key = { key: event.key, at_ms: event.timeStamp };
    setKeys((before) => [...before, key].slice(-MOST_KEYS));
  };
  const bursts = burstsOf(keys).reverse();
  return (
    <ShopFrame room="gauge">
      <p>{gauge.lead}</p>
      <p class="small soft">{gauge.stop}</p>
      <section
        ref={box}
        class={listening ? 'gauge-box listening' : 'gauge-box'}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it has to have the focus to hear keys
        tabIndex={0}
        aria-label={gauge.title}
        onKeyDown={heard}
        onFocus={() => setListening(true)}
        onBlur={() => setListening(false)}
      >
        {bursts.length === 0 ? <p class="soft">{listening ? gauge.nothing : gauge.tap}</p> : null}
        <ol class="bursts" aria-live="polite">
          {bursts.map((burst, i) => (
            <li key={bursts.length - i}>
              <p class="burst-text figures">{burst.text || '—'}</p>
              <p class="gauge-keys">
                {burst.keys.map((key, at) => (
                  <kbd key={at}>{key === ' ' ? '␣' : key}</kbd>
                ))}
              </p>
              <p class="small soft">
                {burst.ended_by ? `${gauge.ended_by} ${burst.ended_by} · ` : `${gauge.no_end} `}
                {burst.keys.length > 2 && burst.gap_ms < CABLE_GAP_MS ? gauge.fast(burst.gap_ms) : gauge.slow}
              </p>
            </li>
          ))}
        </ol>
      </section>
      <button type="button" onClick={() => setKeys([])}>
        {gauge.clear}
      </button>
    </ShopFrame>
  );
}
