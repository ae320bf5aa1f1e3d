import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { PermitRule, Unit } from '../api/schema';
import { Conflict } from '../conflict/conflict';
import type { Merge } from '../conflict/merge';
import { saveMerging } from '../conflict/save';
import { Field } from '../controls/field';
import { LengthField, nmOf } from '../controls/length_field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { percentOf } from '../shop/numbers';
import { length } from '../show/length';
import { useStanding } from '../state/answer';
import { useKept } from '../state/kept';
import { PERMIT_RULE } from '../state/kinds';
import { leads } from '../state/role';
import { shop } from '../state/shop';
import { words } from '../words';
import '../shop/shop.css';
import './permit.css';
import { practicePoints, ruleFigures, ruleTexts } from './rule_texts';

const FORM = 'permit-rule';
const WHOLE = () => true;
const FINE = 100;
const DRAFT_FIELDS = ['sd_at_most_nm', 'share_within', 'supervised_cuts', 'practice_points', 'lapses_after_days'];

/** What a permit needs, as the teacher sets it. */
export function PermitRuleScreen() {
  const { rule } = words.permit;
  const { answer, trouble, again } = useStanding(() => call('get', '/permit-rule'), PERMIT_RULE);
  const [saved, setSaved] = useState(false);
  return (
    <Screen
      name="permit"
      title={rule.title}
      next={
        leads.value ? (
          <button type="submit" form={FORM} class="main">
            {words.shop.save}
          </button>
        ) : (
          <a class="button main" href="/permit">
            {words.permit.title}
          </a>
        )
      }
      aside={
        <a class="button" href="/class">
          {words.classes.title}
        </a>
      }
    >
      <TroubleLine text={trouble?.message} />
      <p class="soft">{leads.value ? rule.lead : rule.teacher}</p>
      {answer ? (
        <RuleForm
          key={answer.version}
          present={answer}
          onTyped={() => setSaved(false)}
          onSaved={() => {
            setSaved(true);
            again();
          }}
        />
      ) : null}
      {saved ? <p role="status">{rule.saved}</p> : null}
    </Screen>
  );
}

/** What is typed, and the rule that it began from: a rule that changes meanwhile is laid together with it. */
const begin = (rule: PermitRule, unit: Unit) => ({ base: rule, unit, ...ruleTexts(rule, unit) });

function shownValue(path: string, value: unknown): string {
  if (typeof value === 'boolean') return value ? words.permit.rule.asked : words.permit.rule.not_asked;
  if (value === null || value === undefined) return words.permit.rule.not_asked;
  if (path === 'sd_at_most_nm') return length(Number(value), { unit: 'mm', resolution_nm: FINE });
  return path === 'share_within' ? `${percentOf(Number(value))} ${words.permit.rule.percent}` : String(value);
}

interface FormProps {
  present: PermitRule;
  onTyped: () => void;
  onSaved: () => void;
}

function RuleForm({ present, onTyped, onSaved }: FormProps) {
  const { rule } = words.permit;
  const { draft, change, drop } = useKept('permit_rule', () =>
    begin(present, shop.value?.settings.default_unit ?? 'mm'),
  );
  const [asked, setAsked] = useState(false);
  const [merge, setMerge] = useState<Merge<PermitRule> | null>(null);
  const saving = useSaving();
  const read = ruleFigures(draft);
  const closed = !leads.value;
  const save = (from: PermitRule, wanted: () => Promise<PermitRule>) =>
    saving.run(async () => {
      const put = (body: PermitRule) => call('put', '/permit-rule', { body });
      const outcome = await saveMerging(from, await wanted(), put, WHOLE);
      setMerge('merge' in outcome ? outcome.merge : null);
      if ('merge' in outcome) return;
      drop();
      onSaved();
    });
  const submit = (event: Event) => {
    event.preventDefault();
    setAsked(true);
    const { share_within, supervised_cuts, lapses_after_days } = read;
    if (share_within === null || supervised_cuts === null || lapses_after_days === null) return;
    const practice_points = practicePoints(draft);
    if (practice_points === undefined) return;
    void save(draft.base, async () => ({
      version: draft.base.version,
      needs_safety_points: draft.needs_safety_points,
      needs_measuring: draft.needs_measuring,
      share_within,
      sd_at_most_nm: await nmOf(draft.sd, draft.unit, 'sd_at_most_nm'),
      supervised_cuts,
      practice_points,
      lapses_after_days,
    }));
  };
  const wrong = (name: keyof typeof read, why: string) =>
    wrongWith(saving.trouble, name) ?? (asked && read[name] === null ? why : undefined);
  return (
    <form class="fields" id={FORM} onSubmit={submit} onInput={onTyped}>
      <fieldset class="fields" disabled={closed}>
        <Tick label={rule.safety} on={draft.needs_safety_points} onTick={(on) => change({ needs_safety_points: on })} />
        <Tick label={rule.measuring} on={draft.needs_measuring} onTick={(on) => change({ needs_measuring: on })} />
        {draft.needs_measuring ? (
          <>
            <Field
              label={rule.share}
              value={draft.share}
              digits
              inputMode="decimal"
              note={rule.share_note}
              error={wrong('share_within', rule.share_bad)}
              after={<span class="unit">{rule.percent}</span>}
              onInput={(share) => change({ share })}
            />
            <LengthField
              label={rule.sd}
              value={draft.sd}
              unit={draft.unit}
              note={rule.sd_note}
              error={wrongWith(saving.trouble, 'sd_at_most_nm')}
              onUnit={(unit) => change({ unit })}
              onInput={(sd) => change({ sd })}
            />
          </>
        ) : null}
        <Field
          label={rule.cuts}
          value={draft.cuts}
          digits
          inputMode="numeric"
          error={wrong('supervised_cuts', rule.cuts_bad)}
          onInput={(cuts) => change({ cuts })}
        />
        <Field
          label={rule.practice}
          value={draft.practice}
          digits
          inputMode="numeric"
          note={rule.practice_note}
          error={
            wrongWith(saving.trouble, 'practice_points') ??
            (asked && practicePoints(draft) === undefined ? rule.practice_bad : undefined)
          }
          onInput={(practice) => change({ practice })}
        />
        <Field
          label={rule.days}
          value={draft.days}
          digits
          inputMode="numeric"
          error={wrong('lapses_after_days', rule.days_bad)}
          after={<span class="unit">{rule.days_unit}</span>}
          onInput={(days) => change({ days })}
        />
      </fieldset>
      <TroubleLine text={wrongElsewhere(saving.trouble, DRAFT_FIELDS)} />
      {merge ? (
        <Conflict
          merge={merge}
          nameOf={(path) => rule.fields[path] ?? path}
          show={shownValue}
          onClose={() => setMerge(null)}
          onSettled={(settled) => void save(settled, async () => settled)}
        />
      ) : null}
    </form>
  );
}

function Tick({ label, on, onTick }: { label: string; on: boolean; onTick: (on: boolean) => void }) {
  return (
    <label class="tick">
      <input type="checkbox" checked={on} onChange={(event) => onTick(event.currentTarget.checked)} />
      <span>{label}</span>
    </label>
  );
}
