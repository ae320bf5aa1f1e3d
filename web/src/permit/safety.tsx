import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { SafetyQuestion } from '../api/schema';
import { Caution } from '../controls/caution';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { Screen } from '../shell/screen';
import { useStanding } from '../state/answer';
import { useKept } from '../state/kept';
import { SAFETY_POINTS } from '../state/kinds';
import { person } from '../state/shop';
import { words } from '../words';
import { nextOpen, rightOf } from './points';
import './permit.css';

/** The safety points, read one by one and answered. */
export function SafetyPoints() {
  const { safety } = words.permit;
  const id = person.value?.id ?? '';
  const {
    answer: points,
    trouble,
    reread,
  } = useStanding(() => call('get', '/people/{person_id}/safety', { path: { person_id: id } }), SAFETY_POINTS, {
    of: [id],
  });
  const [at, setAt] = useState<string | null>(null);
  if (!points) {
    return (
      <Screen name="safety" title={safety.title} next={<ToPermit />}>
        <TroubleLine text={trouble?.message} />
      </Screen>
    );
  }
  const here = points.find((one) => one.safety_point_id === at) ?? nextOpen(points, null);
  if (!here) return <AllRight points={points} onShow={setAt} />;
  return (
    <OnePoint
      key={here.safety_point_id}
      {...{ here, points, person_id: id }}
      onAnswered={() => {
        setAt(here.safety_point_id);
        return reread();
      }}
      onNext={() => setAt(nextOpen(points, here.safety_point_id)?.safety_point_id ?? null)}
    />
  );
}

const ToPermit = () => (
  <a class="button main" href="/permit">
    {words.permit.safety.to_permit}
  </a>
);

function AllRight({ points, onShow }: { points: readonly SafetyQuestion[]; onShow: (id: string) => void }) {
  const { safety } = words.permit;
  return (
    <Screen name="safety" title={safety.title} next={<ToPermit />}>
      <p>{points.length === 0 ? safety.none : safety.all_right}</p>
      <ul class="things">
        {points.map((one) => (
          <li key={one.safety_point_id}>
            <button type="button" class="plain thing" onClick={() => onShow(one.safety_point_id)}>
              {one.question}
            </button>
          </li>
        ))}
      </ul>
      <FirstOfAll />
    </Screen>
  );
}

const FirstOfAll = () => (
  <Caution title={words.permit.safety.defers_title}>
    <p>{words.permit.safety.defers}</p>
  </Caution>
);

interface PointProps {
  here: SafetyQuestion;
  points: readonly SafetyQuestion[];
  person_id: string;
  /** Settles once the points say what was answered. */
  onAnswered: () => Promise<void>;
  onNext: () => void;
}

function OnePoint({ here, points, person_id, onAnswered, onNext }: PointProps) {
  const { safety } = words.permit;
  const kept = useKept(`safety.${here.safety_point_id}`, () => ({ id: newId(), choice: -1 }));
  const { draft, change, drop } = kept;
  const [trying, setTrying] = useState(false);
  const saving = useSaving();
  const answered = trying ? null : here.answered;
  const chosen = answered ? answered.choice : draft.choice;
  const right = rightOf(points);
  const send = () =>
    saving.run(async () => {
      const { id, choice } = draft;
      await call('post', '/safety-answers', {
        body: { id, person_id, safety_point_id: here.safety_point_id, choice },
      });
      await onAnswered();
      drop();
      setTrying(false);
    });
  const next = !answered ? (
    <button type="button" class="main" disabled={saving.busy || chosen < 0} onClick={send}>
      {safety.answer}
    </button>
  ) : !answered.was_right ? (
    <button type="button" class="main" onClick={() => setTrying(true)}>
      {safety.again}
    </button>
  ) : right < points.length ? (
    <button type="button" class="main" onClick={onNext}>
      {safety.next}
    </button>
  ) : (
    <ToPermit />
  );
  return (
    <Screen
      name="safety"
      title={safety.of(points.indexOf(here) + 1, points.length)}
      next={next}
      aside={
        <a class="button" href="/permit">
          {words.permit.title}
        </a>
      }
    >
      <p class="soft small" role="status">
        {safety.right_of(right, points.length)}
      </p>
      <fieldset class="point">
        <legend class="point-question">{here.question}</legend>
        {here.choices.map((text, index) => (
          <label key={text} class="point-choice">
            <input
              type="radio"
              name={here.safety_point_id}
              checked={chosen === index}
              disabled={answered !== null}
              onChange={() => change({ id: newId(), choice: index })}
            />
            <span>{text}</span>
          </label>
        ))}
      </fieldset>
      <TroubleLine text={saving.trouble?.message} />
      {answered ? (
        <div class="point-reason" role="status">
          <p class="point-word">{answered.was_right ? safety.right : safety.wrong}</p>
          <h2>{safety.why}</h2>
          <p>{answered.reason}</p>
        </div>
      ) : chosen < 0 ? (
        <p class="small soft">{safety.choose}</p>
      ) : null}
      <FirstOfAll />
    </Screen>
  );
}
