import { useEffect, useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { KnownPart, Part } from '../api/schema';
import { Field } from '../controls/field';
import { type Saving, useSaving } from '../controls/saving';
import { isDrum, kindOf } from '../show/part_kind';
import { words } from '../words';
import { limitNamesOf, showLimit } from './figures';

const TYPING_MS = 200;
const MOST = 6;
const MOST_READ = 60;

/** Parts that the shop has met: found by words, filled in all at once. */
interface KnownProps {
  /** Parts of another kind are left out. */
  like: Pick<Part, 'kind'>;
  saving: Saving;
  /** Shows nothing before words are typed: the figures are there already. */
  quiet: boolean;
  onFill: (part: KnownPart) => void;
}

export function KnownParts({ like, saving, quiet, onFill }: KnownProps) {
  const [text, setText] = useState('');
  const [found, setFound] = useState<KnownPart[] | null>(null);
  const { known } = words.limits;
  useEffect(() => {
    const read = async () =>
      setFound(
        (await call('get', '/known-parts', { query: { words: text.trim(), limit: MOST_READ } }))
          .filter((one) => kindOf(one) === kindOf(like))
          .slice(0, MOST),
      );
    const timer = setTimeout(() => read().catch(() => setFound([])), TYPING_MS);
    return () => clearTimeout(timer);
  }, [text.trim()]);
  const shown = quiet && text.trim() === '' ? [] : (found ?? []);
  if (found?.length === 0 && text === '') return <p class="small soft">{known.empty}</p>;
  return (
    <div class="known-parts">
      <Field label={known.title} hint={known.hint} value={text} onInput={setText} />
      <ul aria-label={known.title}>
        {shown.map((part) => (
          <li key={part.id}>
            <button type="button" class="plain known-part" disabled={saving.busy} onClick={() => onFill(part)}>
              <span>{part.name}</span> <span class="small soft figures">{summary(part)}</span>
            </button>
          </li>
        ))}
      </ul>
      {found?.length === 0 ? <p class="small soft">{known.none}</p> : null}
    </div>
  );
}

function summary(part: KnownPart): string {
  return (['discard', 'machine_to'] as const)
    .filter((name) => part.limits[name])
    .map((name) => `${words.limits.names[name].toLowerCase()} ${showLimit(name, part.limits[name])}`)
    .join(' · ');
}

/** Keeps this part's limits for the next time, under the shop's own words. */
export function Remember({ part, name: start }: { part: Part; name: string }) {
  const [open, setOpen] = useState(false);
  const [name, setName] = useState(start);
  const [done, setDone] = useState('');
  const [id] = useState(newId);
  const saving = useSaving();
  const { known } = words.limits;
  if (limitNamesOf(part).every((one) => !part.limits[one])) return null;
  if (done) return <p role="status">{known.remembered(done)}</p>;
  const remember = () =>
    saving.run(async () => {
      const { limits, vented, outer_diameter = null, seat = {}, kind = null } = part;
      const { band_width = null, lining_radius = null, lining_arc_deg = null } = part;
      const drum = { kind, band_width, lining_radius, lining_arc_deg };
      const body = { id, name: name.trim(), limits, vented, outer_diameter, seat, ...(isDrum(part) ? drum : {}) };
      await call('put', '/known-parts/{known_part_id}', { path: { known_part_id: id }, body });
      setDone(name.trim());
    });
  if (!open) {
    return (
      <button type="button" class="remember" onClick={() => setOpen(true)}>
        {known.remember}
      </button>
    );
  }
  return (
    <div class="remember-form">
      <Field
        label={known.remember_name}
        hint={known.remember_hint}
        value={name}
        focused
        error={saving.trouble?.message}
        onInput={setName}
        onEnter={remember}
        after={
          <button type="button" disabled={saving.busy || name.trim() === ''} onClick={remember}>
            {known.remember_save}
          </button>
        }
      />
    </div>
  );
}
