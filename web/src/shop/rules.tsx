import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { CuttingRules, Settings, Unit } from '../api/schema';
import { Conflict } from '../conflict/conflict';
import type { Merge } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { Field } from '../controls/field';
import { LengthField, nmOf } from '../controls/length_field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { Choice } from '../shell/choice';
import { length } from '../show/length';
import { loadShop, shop } from '../state/shop';
import { words } from '../words';
import { CuttingFields } from './cutting_rules';
import { CUTTING_BASES, CUTTING_NUMBERS, type CuttingTexts, cuttingTexts, readCutting } from './cutting_texts';
import { FORM, SaveForm, ShopFrame } from './frame';
import './lathe.css';
import { TroubleLine } from '../controls/trouble_line';
import { numberOf, percentOf, shareOf, textOfNm } from './numbers';

export function Rules() {
  const settings = shop.value?.settings;
  return (
    <ShopFrame room="rules" next={<SaveForm />}>
      {settings ? <RulesForm settings={settings} /> : null}
    </ShopFrame>
  );
}

const FIELDS = [
  'shop_name',
  'confidence',
  'house_allowance_nm',
  'cut_margin_nm',
  'wear_mm_per_10000_km',
  'points',
  ...CUTTING_NUMBERS,
  ...CUTTING_BASES,
];
const inParts = (path: string) => path !== 'cutting';

/** The figures of the house rules as they are typed, beside the settings that they began from. */
function useRules(settings: Settings) {
  const [base, setBase] = useState(settings);
  const [draft, setDraft] = useState(settings);
  const [texts, setTexts] = useState(() => textsOf(settings));
  const [cutting, setCutting] = useState(() => cuttingOf(settings));
  const [unit, setUnit] = useState<Unit>(settings.default_unit);
  const [done, setDone] = useState(false);
  const [merge, setMerge] = useState<Merge<Settings> | null>(null);
  const saving = useSaving();
  const put = (body: Settings) => call('put', '/shop/settings', { body });
  const save = (from: Settings, wanted: () => Promise<Settings> | Settings) =>
    saving.run(async () => {
      const outcome = await saveMerging(from, await wanted(), put, inParts);
      setMerge('merge' in outcome ? outcome.merge : null);
      if ('merge' in outcome) return;
      setBase(outcome.saved);
      setDraft(outcome.saved);
      setTexts(textsOf(outcome.saved));
      setCutting(cuttingOf(outcome.saved));
      setDone(true);
      await loadShop();
    });
  const change = (part: Partial<Settings>) => {
    setDone(false);
    setDraft((now) => ({ ...now, ...part }));
  };
  const type = (name: TextName) => (text: string) => {
    setDone(false);
    setTexts((now) => ({ ...now, [name]: text }));
  };
  const typeCutting = (name: keyof CuttingTexts, text: string) => {
    setDone(false);
    setCutting((now) => (now ? { ...now, [name]: text } : now));
  };
  return { base, draft, texts, cutting, typeCutting, unit, setUnit, done, merge, setMerge, saving, save, change, type };
}

const cuttingOf = ({ cutting }: Settings): CuttingTexts | null => (cutting ? cuttingTexts(cutting) : null);

type RulesDraft = ReturnType<typeof useRules>;
type TextName = 'confidence' | 'wear' | 'points' | 'allowance' | 'margin';

function textsOf(settings: Settings): Record<TextName, string> {
  const { default_unit: unit, wear_mm_per_10000_km: wear } = settings;
  return {
    confidence: percentOf(settings.confidence),
    wear: wear === null ? '' : String(wear),
    points: String(settings.points),
    allowance: textOfNm(settings.house_allowance_nm, unit),
    margin: textOfNm(settings.cut_margin_nm, unit),
  };
}

/** What is typed, as numbers, and what of it is none. */
function readRules(texts: Record<TextName, string>) {
  const { rules } = words.shop;
  const percent = numberOf(texts.confidence);
  const share = percent === null ? null : shareOf(percent);
  const wear = texts.wear.trim() === '' ? null : numberOf(texts.wear);
  const wrong = {
    confidence: share === null || share < 0.5 || share > 0.999 ? rules.confidence_bad : undefined,
    wear: texts.wear.trim() !== '' && (wear === null || wear <= 0) ? rules.number_bad : undefined,
    points: /^(?:[4-9]|1[0-9]|2[0-4])$/.test(texts.points.trim()) ? undefined : rules.points_bad,
  };
  return { share, wear, wrong, points: Number(texts.points) };
}

/** What the shop asks for, each marked as what it is: its own rule, or a habit without a source. */
function RulesForm({ settings }: { settings: Settings }) {
  const { rules } = words.shop;
  const form = useRules(settings);
  const { base, draft, merge, saving } = form;
  const read = readRules(form.texts);
  const submit = (event: Event) => {
    event.preventDefault();
    const { share, wear, wrong, points } = read;
    const turning = form.cutting ? readCutting(form.cutting).rules : null;
    if (wrong.confidence || wrong.wear || wrong.points || share === null || (form.cutting && !turning)) return;
    const { allowance, margin } = form.texts;
    void form.save(base, async () => ({
      ...draft,
      ...(turning ? { cutting: turning } : {}),
      confidence: share,
      wear_mm_per_10000_km: wear,
      points,
      house_allowance_nm: await nmOf(allowance, form.unit, 'house_allowance_nm'),
      cut_margin_nm: (await nmOf(margin, form.unit, 'cut_margin_nm')) ?? 0,
    }));
  };
  const elsewhere = wrongElsewhere(saving.trouble, FIELDS);
  return (
    <form class="fields" id={FORM} onSubmit={submit}>
      <p class="soft">{rules.lead}</p>
      <Field
        label={rules.shop_name}
        value={draft.shop_name}
        error={wrongWith(saving.trouble, 'shop_name')}
        onInput={(shop_name) => form.change({ shop_name })}
      />
      <Figures form={form} wrong={read.wrong} />
      <Choice
        shown
        label={rules.default_unit}
        value={draft.default_unit}
        options={(['mm', 'in'] as const).map((value) => ({ value, label: value }))}
        onChange={(default_unit) => form.change({ default_unit })}
      />
      <Choice
        shown
        label={rules.paper}
        value={draft.paper}
        options={(['a4', 'letter'] as const).map((value) => ({ value, label: rules.papers[value] }))}
        onChange={(paper) => form.change({ paper })}
      />
      {form.cutting ? <CuttingFields texts={form.cutting} trouble={saving.trouble} onType={form.typeCutting} /> : null}
      <TroubleLine text={elsewhere} />
      <p role="status">{form.done ? words.shop.saved : ''}</p>
      {merge ? (
        <Conflict
          merge={merge}
          nameOf={(path) => rules.fields[path] ?? cuttingName(path) ?? path}
          show={(path, value) => showSetting(path, value, base.default_unit)}
          onClose={() => form.setMerge(null)}
          onSettled={(settled) => form.save(settled, () => settled)}
        />
      ) : null}
    </form>
  );
}

interface FiguresProps {
  form: RulesDraft;
  wrong: ReturnType<typeof readRules>['wrong'];
}

function Figures({ form, wrong }: FiguresProps) {
  const { rules } = words.shop;
  const { texts, unit, setUnit, saving, type } = form;
  const at = (name: string) => wrongWith(saving.trouble, name);
  const marked = (text: string) => <Marked text={text} mark={rules.house_rule} />;
  const number = (
    name: 'confidence' | 'wear' | 'points',
    label: string,
    note: string,
    bad?: string,
    after?: string,
  ) => (
    <Field
      label={label}
      note={marked(note)}
      digits
      inputMode="decimal"
      value={texts[name]}
      error={bad}
      onInput={type(name)}
      after={after ? <span class="unit">{after}</span> : null}
    />
  );
  return (
    <>
      {number(
        'confidence',
        rules.confidence,
        rules.confidence_note,
        wrong.confidence ?? at('confidence'),
        rules.percent,
      )}
      <LengthField
        label={rules.allowance}
        note={marked(rules.allowance_note)}
        value={texts.allowance}
        unit={unit}
        error={at('house_allowance_nm')}
        onInput={type('allowance')}
        onUnit={setUnit}
      />
      <LengthField
        label={rules.margin}
        note={marked(rules.margin_note)}
        value={texts.margin}
        unit={unit}
        error={at('cut_margin_nm')}
        onInput={type('margin')}
        onUnit={setUnit}
      />
      {number('wear', rules.wear, rules.wear_note, wrong.wear ?? at('wear_mm_per_10000_km'), rules.mm)}
      {number('points', rules.points, rules.points_note, wrong.points ?? at('points'))}
    </>
  );
}

function Marked({ text, mark }: { text: string; mark: string }) {
  return (
    <>
      <strong>{mark}.</strong> {text}
    </>
  );
}

const cuttingName = (path: string): string | undefined =>
  rulesOfTurning[path.replace('cutting.', '') as keyof CuttingRules];
const rulesOfTurning: Partial<Record<keyof CuttingRules, string>> = words.shop.rules.cutting.names;

function showSetting(path: string, value: unknown, unit: Unit): string {
  if (value === null || value === '') return words.conflict.empty;
  if (path.endsWith('_nm')) return length(Number(value), { unit, resolution_nm: 1000 });
  if (path === 'confidence') return `${percentOf(Number(value))} ${words.shop.rules.percent}`;
  return String(value);
}
