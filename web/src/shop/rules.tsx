import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { Settings, Unit } from '../api/schema';
import { Conflict } from '../conflict/conflict';
import type { Merge } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { Field } from '../controls/field';
import { LengthField, type ReadLength } from '../controls/length_field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { Choice } from '../shell/choice';
import { length } from '../show/length';
import { loadShop, shop } from '../state/shop';
import { words } from '../words';
import { FORM, SaveForm, ShopFrame } from './frame';
import { numberOf, percentOf, shareOf } from './numbers';

export function Rules() {
  const settings = shop.value?.settings;
  return (
    <ShopFrame room="rules" next={<SaveForm />}>
      {settings ? <RulesForm key={settings.version} settings={settings} /> : null}
    </ShopFrame>
  );
}

const FIELDS = ['shop_name', 'confidence', 'house_allowance_nm', 'cut_margin_nm', 'wear_mm_per_10000_km', 'points'];
const MOST_DIGITS = 6;

const textOf = (nm: number | null, unit: Unit): string =>
  nm === null ? '' : String(Number((nm / (unit === 'mm' ? 1e6 : 25.4e6)).toFixed(MOST_DIGITS)));

/** What the shop asks for, each marked as what it is: its own rule, or a habit without a source. */
function RulesForm({ settings }: { settings: Settings }) {
  const { rules } = words.shop;
  const [draft, setDraft] = useState(settings);
  const [unit, setUnit] = useState<Unit>(settings.default_unit);
  const [confidence, setConfidence] = useState(percentOf(settings.confidence));
  const [wear, setWear] = useState(settings.wear_mm_per_10000_km === null ? '' : String(settings.wear_mm_per_10000_km));
  const [points, setPoints] = useState(String(settings.points));
  const [allowance, setAllowance] = useState(textOf(settings.house_allowance_nm, settings.default_unit));
  const [margin, setMargin] = useState(textOf(settings.cut_margin_nm, settings.default_unit));
  const [done, setDone] = useState(false);
  const [merge, setMerge] = useState<Merge<Settings> | null>(null);
  const saving = useSaving();
  const percent = numberOf(confidence);
  const share = percent === null ? null : shareOf(percent);
  const wearRate = wear.trim() === '' ? null : numberOf(wear);
  const wrong = {
    confidence: share === null || share < 0.5 || share > 0.999 ? rules.confidence_bad : undefined,
    wear: wear.trim() !== '' && (wearRate === null || wearRate <= 0) ? rules.number_bad : undefined,
    points: /^(?:[4-9]|1[0-9]|2[0-4])$/.test(points.trim()) ? undefined : rules.points_bad,
  };
  const put = (body: Settings) => call('put', '/shop/settings', { body });
  const save = (base: Settings, wanted: Settings) =>
    saving.run(async () => {
      const outcome = await saveMerging(base, wanted, put, () => true);
      if ('merge' in outcome) {
        setMerge(outcome.merge);
        return;
      }
      setMerge(null);
      setDone(true);
      await loadShop();
    });
  const submit = (event: Event) => {
    event.preventDefault();
    if (wrong.confidence || wrong.wear || wrong.points || share === null) return;
    const wanted = { ...draft, confidence: share, wear_mm_per_10000_km: wearRate, points: Number(points) };
    void save(settings, wanted);
  };
  const change = (part: Partial<Settings>) => {
    setDone(false);
    setDraft((now) => ({ ...now, ...part }));
  };
  const at = (name: string) => wrongWith(saving.trouble, name);
  const elsewhere = wrongElsewhere(saving.trouble, FIELDS);
  return (
    <form class="fields" id={FORM} onSubmit={submit}>
      <p class="soft">{rules.lead}</p>
      <Field
        label={rules.shop_name}
        value={draft.shop_name}
        error={at('shop_name')}
        onInput={(shop_name) => change({ shop_name })}
      />
      <Field
        label={rules.confidence}
        note={<Marked text={rules.confidence_note} mark={rules.house_rule} />}
        digits
        inputMode="decimal"
        value={confidence}
        error={wrong.confidence ?? at('confidence')}
        onInput={setConfidence}
        after={<span class="unit">{rules.percent}</span>}
      />
      <LengthField
        label={rules.allowance}
        note={<Marked text={rules.allowance_note} mark={rules.house_rule} />}
        value={allowance}
        unit={unit}
        error={at('house_allowance_nm')}
        onInput={setAllowance}
        onUnit={setUnit}
        onRead={(read: ReadLength | null) => setDraft((now) => ({ ...now, house_allowance_nm: read?.nm ?? null }))}
      />
      <LengthField
        label={rules.margin}
        note={<Marked text={rules.margin_note} mark={rules.house_rule} />}
        value={margin}
        unit={unit}
        error={at('cut_margin_nm')}
        onInput={setMargin}
        onUnit={setUnit}
        onRead={(read: ReadLength | null) => setDraft((now) => ({ ...now, cut_margin_nm: read?.nm ?? 0 }))}
      />
      <Field
        label={rules.wear}
        note={<Marked text={rules.wear_note} mark={rules.house_rule} />}
        digits
        inputMode="decimal"
        value={wear}
        error={wrong.wear ?? at('wear_mm_per_10000_km')}
        onInput={setWear}
        after={<span class="unit">{rules.mm}</span>}
      />
      <Field
        label={rules.points}
        note={<Marked text={rules.points_note} mark={rules.house_rule} />}
        digits
        inputMode="numeric"
        value={points}
        error={wrong.points ?? at('points')}
        onInput={setPoints}
      />
      <Choice
        shown
        label={rules.default_unit}
        value={draft.default_unit}
        options={(['mm', 'in'] as const).map((value) => ({ value, label: value }))}
        onChange={(default_unit) => change({ default_unit })}
      />
      <Choice
        shown
        label={rules.paper}
        value={draft.paper}
        options={(['a4', 'letter'] as const).map((value) => ({ value, label: rules.papers[value] }))}
        onChange={(paper) => change({ paper })}
      />
      {elsewhere ? (
        <p class="trouble" role="alert">
          {elsewhere}
        </p>
      ) : null}
      {done ? <p role="status">{words.shop.saved}</p> : null}
      {merge ? (
        <Conflict
          merge={merge}
          nameOf={(path) => rules.fields[path] ?? path}
          show={(path, value) => showSetting(path, value, settings.default_unit)}
          onClose={() => setMerge(null)}
          onSettled={(settled) => save(settled, settled)}
        />
      ) : null}
    </form>
  );
}

function Marked({ text, mark }: { text: string; mark: string }) {
  return (
    <>
      <strong>{mark}.</strong> {text}
    </>
  );
}

function showSetting(path: string, value: unknown, unit: Unit): string {
  if (value === null || value === '') return words.conflict.empty;
  if (path.endsWith('_nm')) return length(Number(value), { unit, resolution_nm: 1000 });
  if (path === 'confidence') return `${percentOf(Number(value))} ${words.shop.rules.percent}`;
  return String(value);
}
