import { Choice } from '../shell/choice';
import { bench, hand, theme } from '../state/preferences';
import { words } from '../words';
import { ShopFrame } from './frame';

/** What this one tablet looks like. */
export function Appearance() {
  const { appearance } = words.shop;
  return (
    <ShopFrame room="appearance">
      <div class="fields">
        <p class="soft">{appearance.lead}</p>
        <Choice
          shown
          label={appearance.theme}
          value={theme.value}
          options={(['system', 'light', 'dark'] as const).map((value) => ({ value, label: appearance.themes[value] }))}
          onChange={(value) => {
            theme.value = value;
          }}
        />
        <Choice
          shown
          label={appearance.hand}
          value={hand.value}
          options={(['left', 'right'] as const).map((value) => ({ value, label: appearance.hands[value] }))}
          onChange={(value) => {
            hand.value = value;
          }}
        />
        <Choice
          shown
          label={appearance.bench}
          value={bench.value}
          options={(['off', 'on'] as const).map((value) => ({
            value,
            label: value === 'on' ? appearance.bench_on : appearance.bench_off,
          }))}
          onChange={(value) => {
            bench.value = value;
          }}
        />
        <p class="small soft">{appearance.bench_note}</p>
      </div>
    </ShopFrame>
  );
}
