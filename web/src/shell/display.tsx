import { useState } from 'preact/hooks';
import { hand, theme } from '../state/preferences';
import { words } from '../words';
import { Choice } from './choice';
import { Drawer } from './drawer';

/** What this tablet prefers, and the way to the shop's own settings. */
export function Display() {
  const [open, setOpen] = useState(false);
  const { themes, hands } = words.shell;
  return (
    <>
      <button type="button" class="plain display" aria-label={words.shell.display} onClick={() => setOpen(true)}>
        <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
          <circle cx="10" cy="10" r="7" fill="none" stroke="currentColor" stroke-width="2" />
          <path d="M10 3a7 7 0 0 1 0 14z" fill="currentColor" />
        </svg>
      </button>
      {open && (
        <Drawer title={words.shell.display} onClose={() => setOpen(false)}>
          <Choice
            shown
            label={words.shell.theme}
            value={theme.value}
            options={(['system', 'light', 'dark'] as const).map((value) => ({ value, label: themes[value] }))}
            onChange={(value) => {
              theme.value = value;
            }}
          />
          <Choice
            shown
            label={words.shell.hand}
            value={hand.value}
            options={(['left', 'right'] as const).map((value) => ({ value, label: hands[value] }))}
            onChange={(value) => {
              hand.value = value;
            }}
          />
          <p>
            <a class="button" href="/shop" onClick={() => setOpen(false)}>
              {words.shell.shopSettings}
            </a>
          </p>
        </Drawer>
      )}
    </>
  );
}
