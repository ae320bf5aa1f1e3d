import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { PermitState } from '../api/schema';
import { SecondWord } from '../class/second_word';
import { Field } from '../controls/field';
import { Opens } from '../controls/opens';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { useStanding } from '../state/answer';
import { useKept } from '../state/kept';
import { PERMIT_RULE } from '../state/kinds';
import { words } from '../words';

interface Props {
  state: PermitState;
  onChanged: () => void;
}

/** The teacher's side of a permit: give it, with a reason where something is missing, or withdraw it. */
export function Giving({ state, onChanged }: Props) {
  if (state.leads) return null;
  return (
    <div class="giving">
      <Give key={state.permit?.id ?? ''} state={state} onChanged={onChanged} />
      {state.stands && state.permit ? <Withdraw state={state} onChanged={onChanged} /> : null}
    </div>
  );
}

function Give({ state, onChanged }: Props) {
  const { give } = words.permit;
  const { draft, change, drop } = useKept(`permit.${state.person_id}`, () => ({ id: newId(), reason: '' }));
  const { answer: rule } = useStanding(() => call('get', '/permit-rule'), PERMIT_RULE);
  const [asked, setAsked] = useState(false);
  const saving = useSaving();
  const lacks = !state.is_ready && draft.reason.trim() === '';
  const submit = (event: Event) => {
    event.preventDefault();
    setAsked(true);
    if (lacks) return;
    void saving.run(async () => {
      const body = { id: draft.id, reason: draft.reason.trim() };
      await call('post', '/people/{person_id}/permits', { path: { person_id: state.person_id }, body });
      drop();
      onChanged();
    });
  };
  return (
    <Opens title={state.stands ? give.again : give.title} open={!state.stands}>
      <form class="fields" onSubmit={submit}>
        <Field
          label={state.is_ready ? give.reason_plain : give.reason}
          value={draft.reason}
          error={wrongWith(saving.trouble, 'reason') ?? (asked && lacks ? give.reason_needed : undefined)}
          onInput={(reason) => change({ reason })}
        />
        {rule ? <p class="small soft">{give.lasts(rule.lapses_after_days)}</p> : null}
        <TroubleLine text={wrongElsewhere(saving.trouble, ['reason'])} />
        <button type="submit" disabled={saving.busy}>
          {give.do}
        </button>
      </form>
    </Opens>
  );
}

function Withdraw({ state, onChanged }: Props) {
  const { withdraw } = words.permit;
  const [open, setOpen] = useState(false);
  const { draft, change, drop } = useKept(`withdraw.${state.permit?.id ?? ''}`, () => ({ why: '' }));
  const saving = useSaving();
  const take = () =>
    saving.run(async () => {
      const path = { person_id: state.person_id, permit_id: state.permit?.id ?? '' };
      await call('post', '/people/{person_id}/permits/{permit_id}/withdraw', { path, body: { why: draft.why.trim() } });
      drop();
      setOpen(false);
      onChanged();
    });
  if (!open) {
    return (
      <button type="button" onClick={() => setOpen(true)}>
        {withdraw.title}
      </button>
    );
  }
  return (
    <SecondWord
      title={withdraw.title}
      yes={withdraw.do}
      no={words.classes.keep}
      saving={saving}
      closed={draft.why.trim() === ''}
      trouble={wrongElsewhere(saving.trouble, ['why', 'withdrawn_why'])}
      onYes={take}
      onNo={() => {
        drop();
        setOpen(false);
      }}
    >
      <p>{withdraw.sure}</p>
      <Field
        label={withdraw.why}
        note={withdraw.why_needed}
        value={draft.why}
        error={wrongWith(saving.trouble, 'why')}
        onInput={(why) => change({ why })}
      />
    </SecondWord>
  );
}
