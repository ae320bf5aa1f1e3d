import { useMemo, useState } from 'preact/hooks';
import { send } from '../api/client';
import type { CalcRoughnessOutput } from '../api/schema';
import { Field } from '../controls/field';
import { FileButton } from '../controls/file_button';
import { Opens } from '../controls/opens';
import type { Trouble } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Choice } from '../shell/choice';
import { numberOf } from '../shop/numbers';
import { useAnswerTo } from '../state/answer';
import { words } from '../words';
import { active, take } from './at_bench';
import { ProfilePicture } from './profile_picture';
import { type ProfileRead, readProfile, type StylusProfile } from './profile_text';
import { whereOf } from './reading_field';
import './profile.css';

const COLUMNS = 280;
const SETTLE_MS = 150;
const MOST_BYTES = 8_000_000;
const WANTED_SECTIONS = 5;
const CUTOFFS = ['', '0.25', '0.8', '2.5'] as const;
type Cutoff = (typeof CUTOFFS)[number];

const askRoughness = (profile: StylusProfile, cutoff: Cutoff): Promise<CalcRoughnessOutput> => {
  const body = { ...profile, cutoff_mm: cutoff ? Number(cutoff) : null, columns: COLUMNS };
  return send({ method: 'post', path: '/calc/roughness', body }) as Promise<CalcRoughnessOutput>;
};

const wrongOf = (read: ProfileRead | null): string => {
  const said = words.profile;
  if (!read || !('wrong' in read)) return '';
  const what = said.wrong[read.wrong];
  return read.line > 0 ? said.on_line(read.line, what) : what;
};

/** What the shop refuses of it, as a student would say it. */
const refusalOf = (trouble: Trouble | null): string | undefined => {
  const said = words.profile;
  if (trouble?.code === 'too_short') return said.too_short;
  return trouble?.field === 'spacing_um' ? said.too_coarse : trouble?.message;
};

/** Ra as a tester's display would show it. */
export const raText = (ra_um: number): string => `${ra_um.toFixed(ra_um < 0.1 ? 3 : 2)} µm`;

/** A stylus profile in place of a typed Ra: what the shop makes of it, and that taken as the reading. */
export function FromProfile() {
  const said = words.profile;
  return (
    <div class="from-profile">
      <Opens title={said.title}>
        <ProfileForm />
      </Opens>
    </div>
  );
}

function ProfileForm() {
  const said = words.profile;
  const [text, setText] = useState('');
  const [too_long, setTooLong] = useState(false);
  const [spacing, setSpacing] = useState('');
  const [cutoff, setCutoff] = useState<Cutoff>('');
  const typed_um = numberOf(spacing);
  const spacing_um = typed_um !== null && typed_um > 0 ? typed_um : null;
  const read = useMemo(() => (text.trim() === '' ? null : readProfile(text, spacing_um)), [text, spacing_um]);
  const profile = read && 'profile' in read ? read.profile : null;
  const alone = useMemo(() => read !== null && isOneColumn(text), [read]);
  const question = useMemo(
    () => (profile ? `${cutoff} ${profile.spacing_um} ${profile.z_um.join()}` : null),
    [profile, cutoff],
  );
  const { answer, trouble } = useAnswerTo(question, () => askRoughness(profile as StylusProfile, cutoff), SETTLE_MS);
  const change = (next: string) => {
    setTooLong(false);
    setText(next);
  };
  const open = async (file: File) => {
    const fits = file.size <= MOST_BYTES;
    change(fits ? await file.text() : '');
    setTooLong(!fits);
  };
  /** A browser takes a second and more for a thousand lines pasted into a field; put there at once, they cost nothing. */
  const pasted = (event: ClipboardEvent) => {
    const whole = event.clipboardData?.getData('text') ?? '';
    if (!whole.includes('\n') || text.trim() !== '') return;
    event.preventDefault();
    setTooLong(whole.length > MOST_BYTES);
    setText(whole.length > MOST_BYTES ? '' : whole);
  };
  const wants = read && 'wants' in read;
  return (
    <section class="bring" aria-label={said.title}>
      <p class="small soft">{said.lead}</p>
      <FileButton accept=".csv,.txt,text/csv,text/plain" onFile={(file) => void open(file)}>
        {said.file}
      </FileButton>
      <div class="from-profile-text" onPaste={pasted}>
        <Field label={said.paste} lines={4} maxLength={MOST_BYTES} value={text} onInput={change} />
      </div>
      {wants || alone ? (
        <Field
          label={said.spacing}
          digits
          inputMode="decimal"
          value={spacing}
          onInput={setSpacing}
          error={spacing.trim() !== '' && spacing_um === null ? said.spacing_bad : undefined}
          note={wants ? said.spacing_wanted(read.count) : undefined}
        />
      ) : null}
      <TroubleLine text={too_long ? said.wrong.too_long : wrongOf(read) || refusalOf(trouble)} />
      {profile ? (
        <Choice
          shown
          label={said.cutoff}
          value={cutoff}
          options={CUTOFFS.map((value) => ({ value, label: value || said.suggested }))}
          onChange={setCutoff}
        />
      ) : null}
      <div aria-live="polite">{profile && !answer && !trouble ? <p class="soft">{said.working}</p> : null}</div>
      {answer ? <Found answer={answer} suggested={cutoff === ''} onTaken={() => change('')} /> : null}
    </section>
  );
}

/** Whether it stays open what the spacing is, once that was told. */
const isOneColumn = (text: string): boolean => {
  const without = readProfile(text, null);
  return 'wants' in without;
};

interface FoundProps {
  answer: CalcRoughnessOutput;
  suggested: boolean;
  onTaken: () => void;
}

function Found({ answer, suggested, onTaken }: FoundProps) {
  const said = words.profile;
  const slot = active.value;
  const ra = raText(answer.Ra_um);
  return (
    <>
      {answer.drawn ? <ProfilePicture drawn={answer.drawn} /> : null}
      <dl class="sums">
        <div>
          <dt>Ra</dt>
          <dd class="figures">{ra}</dd>
        </div>
        <div>
          <dt>Rz</dt>
          <dd class="figures">{raText(answer.Rz_um)}</dd>
        </div>
      </dl>
      <p>{said.spread(raText(answer.Ra_low_um), raText(answer.Ra_high_um))}</p>
      <p class="small soft">
        {said.basis(String(answer.cutoff_mm), answer.sections, `${answer.evaluated_mm.toFixed(1)} mm`)}{' '}
        {suggested ? said.basis_suggested : ''} {answer.sections < WANTED_SECTIONS ? said.short : ''}
      </p>
      {slot ? (
        <button
          type="button"
          onClick={() => {
            if (take(ra)) onTaken();
          }}
        >
          {said.put_in(ra, whereOf(slot))}
        </button>
      ) : (
        <p class="soft">{said.all_read}</p>
      )}
    </>
  );
}
