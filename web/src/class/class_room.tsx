import { useState } from 'preact/hooks';
import { call } from '../api/client';
import type { ClassView } from '../api/schema';
import { TroubleLine } from '../controls/trouble_line';
import { ask, place } from '../route/router';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { forgetKept } from '../state/kept';
import { person } from '../state/shop';
import { words } from '../words';
import '../shop/shop.css';
import '../permit/permit.css';
import './class.css';
import { useStanding } from '../state/answer';
import { CLASSES, PERMITS } from '../state/kinds';
import { leads } from '../state/role';
import { CLASS_FORM, ClassForm, draftOf } from './class_form';
import { inOrder, presentIds } from './members';
import { OneClass } from './one_class';

/** The classes: one at a time, with who is in it. */
export function ClassRoom() {
  const { classes: said } = words;
  const { answer, trouble, again } = useStanding(() => call('get', '/classes'), CLASSES);
  const permits = useStanding(async () => (leads.value ? call('get', '/permits') : []), PERMITS, { of: [leads.value] });
  const [form, setForm] = useState<'add' | 'change' | null>(null);
  const mine = (view: ClassView) => leads.value || presentIds(view.memberships).has(person.value?.id ?? '');
  const views = inOrder((answer ?? []).filter(mine));
  const view = views.find((one) => one.class.id === place.value.query.class) ?? views[0];
  const changed = form === 'change' ? (view?.class ?? null) : null;
  const cancel = () => {
    forgetKept(draftOf(changed?.id ?? 'new'));
    setForm(null);
  };
  const saved = (id: string) => {
    setForm(null);
    ask({ class: id });
    again();
  };
  return (
    <Screen name="class" title={said.title} {...waysOf({ view, form, onCancel: cancel, onAdd: () => setForm('add') })}>
      <TroubleLine text={trouble?.message} />
      {answer ? null : <p class="soft">{trouble ? '' : said.waiting}</p>}
      {form ? (
        <ClassForm key={form} present={changed} onSaved={saved} />
      ) : (
        <>
          {answer && views.length === 0 ? <p class="soft">{leads.value ? said.none : said.not_in_one}</p> : null}
          {views.length > 1 && view ? (
            <Choice
              label={said.which}
              value={view.class.id}
              options={views.map((one) => ({
                value: one.class.id,
                label: one.class.name,
                note: one.class.archived ? said.archived : one.class.term,
              }))}
              onChange={(id) => ask({ class: id })}
            />
          ) : null}
          {view ? (
            <OneClass
              key={view.class.id}
              {...{ view, permits: permits.answer ?? [], onChanged: again }}
              onChange={() => setForm('change')}
            />
          ) : null}
          {leads.value ? <ForAll /> : <ForMe />}
        </>
      )}
    </Screen>
  );
}

type Form = 'add' | 'change' | null;

interface Ways {
  view: ClassView | undefined;
  form: Form;
  onCancel: () => void;
  onAdd: () => void;
}

function waysOf({ view, form, onCancel, onAdd }: Ways) {
  const { classes: said } = words;
  if (form) {
    return {
      next: (
        <button key="save" type="submit" form={CLASS_FORM} class="main">
          {words.shop.save}
        </button>
      ),
      aside: (
        <button type="button" onClick={onCancel}>
          {words.shop.cancel}
        </button>
      ),
    };
  }
  const add = leads.value ? (
    <button key="add" type="button" class={view ? '' : 'main'} onClick={onAdd}>
      {said.add}
    </button>
  ) : undefined;
  if (!view) {
    return {
      next: add ?? (
        <a class="button main" href="/permit">
          {said.my_permit}
        </a>
      ),
    };
  }
  return {
    next: (
      <a class="button main" href={leads.value ? `/class/${view.class.id}/competences` : '/evidence'}>
        {leads.value ? said.to_grid : said.my_evidence}
      </a>
    ),
    aside: add,
  };
}

function ForAll() {
  const { rooms, rooms_title } = words.classes;
  return (
    <nav aria-label={rooms_title} class="class-rooms">
      <a class="button" href="/week">
        {words.week.name}
      </a>
      <a class="button" href="/competences">
        {rooms.list}
      </a>
      <a class="button" href="/permit/points">
        {rooms.points}
      </a>
      <a class="button" href="/permit/rule">
        {rooms.rule}
      </a>
      <a class="button" href="/studies">
        {rooms.studies}
      </a>
      <a class="button" href="/practice">
        {words.practice.title}
      </a>
    </nav>
  );
}

function ForMe() {
  const { my_permit, my_evidence, rooms } = words.classes;
  return (
    <nav aria-label={words.classes.title} class="class-rooms">
      <a class="button" href="/permit">
        {my_permit}
      </a>
      <a class="button" href="/evidence">
        {my_evidence}
      </a>
      <a class="button" href="/studies">
        {rooms.studies}
      </a>
      <a class="button" href="/practice">
        {words.practice.title}
      </a>
    </nav>
  );
}
