import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { ClassView, PermitState } from '../api/schema';
import { Field } from '../controls/field';
import { Opens } from '../controls/opens';
import { useSaving, wrongElsewhere, wrongWith } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { shortStanding } from '../permit/state_view';
import { dayOf, onDay } from '../show/time';
import { useKept } from '../state/kept';
import { leads } from '../state/role';
import { loadShop, shop } from '../state/shop';
import { words } from '../words';
import { formerOf, hasEnded, membersOf, namesakes } from './members';
import { SecondWord } from './second_word';

interface Props {
  view: ClassView;
  permits: readonly PermitState[];
  onChanged: () => void;
  onChange: () => void;
}

/** Who is in a class; for whoever leads, what can be changed of it. */
export function OneClass({ view, permits, onChanged, onChange }: Props) {
  const { classes: said } = words;
  const everybody = shop.value?.people ?? [];
  const members = membersOf(view, everybody);
  const former = formerOf(view, everybody);
  const { name, term, starts_on, ends_on, archived } = view.class;
  return (
    <div class="class-body">
      <div class="class-head">
        <h2>{name}</h2>
        <p class="soft">
          {[archived ? said.archived : '', term, said.from_to(onDay(starts_on), onDay(ends_on))]
            .filter(Boolean)
            .join(' · ')}
        </p>
      </div>
      {leads.value && hasEnded(view, dayOf(new Date())) ? <p class="doubt">{said.ended}</p> : null}
      {members.length === 0 ? <p class="soft">{said.members_none}</p> : null}
      <ul class="members" aria-label={said.members(members.length)}>
        {members.map((one) => (
          <li key={one.id}>
            {leads.value ? (
              <a class="member" href={`/class/${one.id}`}>
                <span class="member-name">{one.name}</span>{' '}
                <span class="small soft">{shortStanding(permits.find((state) => state.person_id === one.id))}</span>
              </a>
            ) : (
              <span class="member member-name">{one.name}</span>
            )}
            {leads.value && !archived ? (
              <Leave class_id={view.class.id} person_id={one.id} name={one.name} onLeft={onChanged} />
            ) : null}
          </li>
        ))}
      </ul>
      {leads.value && former.length > 0 ? (
        <Opens title={said.former(former.length)}>
          <ul>
            {former.map((one) => (
              <li key={one.id}>
                <a class="member" href={`/class/${one.id}`}>
                  {one.name}
                </a>
              </li>
            ))}
          </ul>
        </Opens>
      ) : null}
      {leads.value ? <Actions {...{ view, onChanged, onChange }} empty={members.length === 0} /> : null}
    </div>
  );
}

interface LeaveProps {
  class_id: string;
  person_id: string;
  name: string;
  onLeft: () => void;
}

function Leave({ class_id, person_id, name, onLeft }: LeaveProps) {
  const { classes: said } = words;
  const [sure, setSure] = useState(false);
  const saving = useSaving();
  const leave = () =>
    saving.run(async () => {
      await call('post', '/classes/{class_id}/members/{person_id}/leave', { path: { class_id, person_id } });
      onLeft();
    });
  return (
    <span>
      <button
        type="button"
        class="plain"
        aria-label={said.leave_named(name)}
        disabled={saving.busy}
        onBlur={() => setSure(false)}
        onClick={() => (sure ? void leave() : setSure(true))}
      >
        {sure ? said.leave_named(name) : said.leave}
      </button>
      <TroubleLine text={saving.trouble?.message} />
    </span>
  );
}

interface ActionProps {
  view: ClassView;
  empty: boolean;
  onChanged: () => void;
  onChange: () => void;
}

function Actions({ view, empty, onChanged, onChange }: ActionProps) {
  const { classes: said } = words;
  const [sure, setSure] = useState(false);
  const saving = useSaving();
  const archive = (archived: boolean) =>
    saving.run(async () => {
      const body = { ...view.class, archived };
      await call('put', '/classes/{class_id}', { path: { class_id: view.class.id }, body });
      setSure(false);
      onChanged();
    });
  return (
    <div class="class-actions">
      {view.class.archived ? null : (
        <>
          <AddPerson view={view} open={empty} onAdded={onChanged} />
          <a class="button" href={`/class/${view.class.id}/roster`}>
            {said.to_roster}
          </a>
          <button type="button" onClick={onChange}>
            {said.change}
          </button>
        </>
      )}
      {sure ? (
        <SecondWord
          title={said.archive_sure}
          yes={said.archive_yes}
          no={said.keep}
          saving={saving}
          trouble={saving.trouble?.message}
          onYes={() => archive(true)}
          onNo={() => setSure(false)}
        >
          <p>{said.archive_means}</p>
        </SecondWord>
      ) : (
        <button
          type="button"
          disabled={saving.busy}
          onClick={() => (view.class.archived ? void archive(false) : setSure(true))}
        >
          {view.class.archived ? said.unarchive : said.archive}
        </button>
      )}
    </div>
  );
}

interface AddProps {
  view: ClassView;
  open: boolean;
  onAdded: () => void;
}

/** One more person: new to the shop, or a student who is here already. */
function AddPerson({ view, open, onAdded }: AddProps) {
  const { classes: said } = words;
  const { draft, change, drop } = useKept(`class_person.${view.class.id}`, () => ({
    id: newId(),
    membership_id: newId(),
    name: '',
  }));
  const saving = useSaving();
  const name = draft.name.trim();
  const known = namesakes(name, shop.value?.people ?? []);
  const isIn = membersOf(view, known).length > 0;
  const note = name === '' ? '' : isIn ? said.person_in : known.length === 0 ? said.person_new : said.person_known;
  const twice = known.length > 1 ? said.person_twice : undefined;
  const submit = (event: Event) => {
    event.preventDefault();
    if (name === '' || isIn || twice) return;
    void saving.run(async () => {
      const person_id = known[0]?.id ?? draft.id;
      if (known.length === 0) {
        const body = { id: draft.id, name, role: 'student' as const, active: true };
        await call('put', '/people/{person_id}', { path: { person_id }, body });
      }
      const body = { id: draft.membership_id, class_id: view.class.id, person_id };
      await call('post', '/classes/{class_id}/memberships', { path: { class_id: view.class.id }, body });
      drop();
      await loadShop();
      onAdded();
    });
  };
  return (
    <Opens title={said.add_person} open={open || draft.name !== ''}>
      <form class="fields" onSubmit={submit}>
        <Field
          label={said.person_name}
          value={draft.name}
          maxLength={80}
          note={note}
          error={wrongWith(saving.trouble, 'name') ?? twice}
          onInput={(text) => change({ name: text })}
        />
        <TroubleLine text={wrongElsewhere(saving.trouble, ['name'])} />
        <button type="submit" disabled={saving.busy || name === '' || isIn || twice !== undefined}>
          {said.take_in}
        </button>
      </form>
    </Opens>
  );
}
