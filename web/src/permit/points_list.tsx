import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { SafetyPoint } from '../api/schema';
import { StarterList } from '../competences/starter_list';
import { Field } from '../controls/field';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Choice } from '../shell/choice';
import { EditableList } from '../shop/editable_list';
import { InUse } from '../shop/list';
import { useStanding } from '../state/answer';
import { useKept } from '../state/kept';
import { SAFETY_POINTS } from '../state/kinds';
import { leads } from '../state/role';
import { words } from '../words';
import './permit.css';
import { askedBy, asksAnew } from './points';

const FORM = 'safety-point';
const MOST_CHOICES = 6;
const FEWEST_CHOICES = 3;

const draftOf = (id: string) => `safety_point.${id}`;

/** The teacher's own safety points. */
export function SafetyPointList() {
  const { points } = words.permit;
  const { answer, trouble, again } = useStanding(() => call('get', '/safety-points'), SAFETY_POINTS);
  return (
    <EditableList
      screen="permit"
      title={points.title}
      add={points.add}
      lead={points.lead}
      none={points.none}
      lines={answer}
      trouble={trouble}
      name={(one) => one.question}
      about={(one) => one.choices[one.right_choice] ?? ''}
      form_id={FORM}
      form={(point, onSaved) => <PointForm {...{ point, onSaved }} place={(answer?.length ?? 0) + 1} />}
      draftOf={draftOf}
      onSaved={again}
      otherwise={
        <a class="button main" href="/permit/safety">
          {words.permit.safety.title}
        </a>
      }
    >
      {leads.value && answer?.length === 0 ? <StarterList onTaken={again} /> : null}
    </EditableList>
  );
}

const begun = (place: number): SafetyPoint => ({
  id: newId(),
  position: place,
  question: '',
  choices: ['', '', ''],
  right_choice: 0,
  reason: '',
  active: true,
});

const padded = (choices: readonly string[]) =>
  choices.length < FEWEST_CHOICES ? [...choices, ...Array(FEWEST_CHOICES - choices.length).fill('')] : [...choices];

interface FormProps {
  point: SafetyPoint | null;
  place: number;
  onSaved: () => void;
}

function PointForm({ point, place, onSaved }: FormProps) {
  const { points } = words.permit;
  const kept = useKept(
    draftOf(point?.id ?? 'new'),
    () => (point ? { ...point, choices: padded(point.choices) } : begun(place)),
    point,
  );
  const { draft, change, drop } = kept;
  const [asked, setAsked] = useState(false);
  const saving = useSaving();
  const asks = askedBy(draft);
  const enough = asks.choices.length >= 2 && asks.right_choice >= 0;
  const ready = asks.question !== '' && draft.reason.trim() !== '' && enough;
  const submit = (event: Event) => {
    event.preventDefault();
    setAsked(true);
    if (!ready) return;
    void saving.run(async () => {
      const { id, position = place, active } = draft;
      const body = { id, position, active, ...asks, reason: draft.reason.trim() };
      await call('put', '/safety-points/{safety_point_id}', { path: { safety_point_id: id }, body });
      drop();
      onSaved();
    });
  };
  const needed = (text: string) => (asked && text.trim() === '' ? words.shop.needed_here : undefined);
  return (
    <form class="fields" id={FORM} onSubmit={submit}>
      <Field
        label={points.question}
        lines={2}
        focused
        value={draft.question}
        error={wrongWith(saving.trouble, 'question') ?? needed(draft.question)}
        onInput={(question) => change({ question })}
      />
      {draft.choices.map((text, index) => (
        <Field
          key={index}
          label={points.choice(index + 1)}
          value={text}
          error={index === 0 ? wrongWith(saving.trouble, 'choices') : undefined}
          onInput={(typed) => change({ choices: draft.choices.map((one, at) => (at === index ? typed : one)) })}
        />
      ))}
      {draft.choices.length < MOST_CHOICES ? (
        <button type="button" onClick={() => change({ choices: [...draft.choices, ''] })}>
          {points.more}
        </button>
      ) : null}
      <Choice
        shown
        label={points.right}
        value={String(draft.right_choice)}
        options={draft.choices.map((_, index) => ({ value: String(index), label: points.choice(index + 1) }))}
        onChange={(value) => change({ right_choice: Number(value) })}
      />
      {asked && !enough ? <TroubleLine text={points.two} /> : null}
      <Field
        label={points.reason}
        hint={points.reason_hint}
        lines={3}
        value={draft.reason}
        error={wrongWith(saving.trouble, 'reason') ?? needed(draft.reason)}
        onInput={(reason) => change({ reason })}
      />
      <InUse active={draft.active} onChange={(active) => change({ active })} />
      {point && asksAnew(point, asks) ? <p class="doubt">{points.anew}</p> : null}
      <TroubleLine text={wrongElsewhere(saving.trouble, ['question', 'choices', 'reason'])} />
    </form>
  );
}
