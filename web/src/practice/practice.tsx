import { useEffect, useRef, useState } from 'preact/hooks';
import { Opens } from '../controls/opens';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { go } from '../route/router';
import { Choice } from '../shell/choice';
import { Screen } from '../shell/screen';
import { calendarDay, moment } from '../show/time';
import { useStanding } from '../state/answer';
import { practiceNews } from '../state/connection';
import { forgetKept } from '../state/kept';
import { PRACTICE } from '../state/kinds';
import { leads } from '../state/role';
import { person } from '../state/shop';
import { words } from '../words';
import '../shop/shop.css';
import './practice.css';
import './lists.css';
import { beginRun, readLive, readPages, readSets, type Wanted } from './api';
import { LiveCards } from './live_cards';
import type { PracticeSet, RunLine } from './model';
import { whole } from './numbers';
import { SET_FORM, SetForm, setDraft } from './set_form';

/** How many runs stand here before the older ones are folded away. */
const SHOWN = 6;
const LEVELS = [0, 1, 2, 3, 4, 5] as const;

/** Own runs and the sets of the class; for whoever leads the benches at work, and what is set. */
export function Practice() {
  const { practice: said } = words;
  const me = person.value?.id ?? '';
  const own = useRunPages(me, me);
  const all = useRunPages(me, null);
  const live = useStanding(async () => (leads.value ? readLive() : []), PRACTICE, { of: [me] });
  const news = practiceNews.value;
  useEffect(() => {
    if (leads.value && news.run_ids.length > 0) live.again();
  }, [news]);
  const sets = useStanding(readSets, PRACTICE, { of: [me] });
  const [doing, setDoing] = useState<'begin' | PracticeSet | 'set' | null>(null);
  const saving = useSaving();
  const begin = (wanted: Wanted) =>
    saving.run(async () => {
      const run = await beginRun(wanted);
      go(`/practice/${run.id}`);
    });
  const [level, setLevel] = useState<(typeof LEVELS)[number]>(1);
  const others = (all.pages?.runs ?? []).filter((run) => run.person_id !== me);
  const form = doing === 'set' || (doing !== null && doing !== 'begin');
  const changed = doing !== null && typeof doing === 'object' ? doing : null;
  const cancel = () => {
    if (form) forgetKept(setDraft(changed?.id ?? 'new'));
    setDoing(null);
  };
  return (
    <Screen
      name="practice"
      title={said.title}
      {...waysOf({
        form,
        beginning: doing === 'begin',
        busy: saving.busy,
        onCancel: cancel,
        onBegin: () => (doing === 'begin' ? void begin({ difficulty: level }) : setDoing('begin')),
      })}
    >
      <TroubleLine text={(own.trouble ?? all.trouble ?? sets.trouble ?? saving.trouble)?.message} />
      {form ? (
        <SetForm
          key={changed?.id ?? 'new'}
          present={changed}
          onSaved={() => {
            setDoing(null);
            sets.again();
          }}
        />
      ) : doing === 'begin' ? (
        <Beginning level={level} onLevel={setLevel} />
      ) : (
        <div class="practice-body">
          <p class="soft">{said.lead}</p>
          {leads.value ? <LiveCards runs={live.answer ?? []} /> : null}
          <Sets sets={sets.answer} begin={begin} onChange={setDoing} onAdd={() => setDoing('set')} />
          {own.pages === null ? <p class="soft">{own.trouble ? '' : said.loading}</p> : null}
          {own.pages ? <Runs title={said.own} {...own.pages} onMore={own.more} none={said.none} /> : null}
          {all.pages && (others.length > 0 || all.pages.earlier > 0) ? (
            <Runs title={said.live.others} runs={others} earlier={all.pages.earlier} onMore={all.more} named />
          ) : null}
        </div>
      )}
    </Screen>
  );
}

/** Runs of a person, or of everybody for whoever leads; `more` asks for a page more of them. */
function useRunPages(me: string, of: string | null) {
  const pages = useRef(1);
  const read = async () => (of === null && !leads.value ? null : readPages(pages.current, of ?? undefined));
  const { answer, trouble, again } = useStanding(read, PRACTICE, { of: [me, leads.value] });
  const more = () => {
    pages.current += 1;
    again();
  };
  return { pages: answer, trouble, more };
}

interface Ways {
  form: boolean;
  beginning: boolean;
  busy: boolean;
  onCancel: () => void;
  onBegin: () => void;
}

function waysOf({ form, beginning, busy, onCancel, onBegin }: Ways) {
  const { practice: said } = words;
  const cancel = (
    <button type="button" onClick={onCancel}>
      {said.cancel}
    </button>
  );
  if (form) {
    return {
      next: (
        <button key="save" type="submit" form={SET_FORM} class="main">
          {said.set.save}
        </button>
      ),
      aside: cancel,
    };
  }
  return {
    next: (
      <button key={beginning ? 'now' : 'begin'} type="button" class="main" disabled={busy} onClick={onBegin}>
        {beginning ? said.begin_now : said.begin}
      </button>
    ),
    aside: beginning ? (
      cancel
    ) : (
      <a class="button" href="/">
        {words.shell.board}
      </a>
    ),
  };
}

type Level = (typeof LEVELS)[number];

function Beginning({ level, onLevel }: { level: Level; onLevel: (level: Level) => void }) {
  const { practice: said } = words;
  return (
    <section class="practice-body" aria-label={said.begin_title}>
      <h2>{said.begin_title}</h2>
      <p class="soft">
        {said.free}. {said.free_ends}
      </p>
      <Choice
        shown
        label={said.difficulty}
        value={String(level)}
        options={LEVELS.map((one) => ({ value: String(one), label: said.difficulty_of(one) }))}
        onChange={(value) => onLevel(LEVELS[Number(value)] ?? 1)}
      />
    </section>
  );
}

interface SetsProps {
  sets: readonly PracticeSet[] | null;
  begin: (wanted: Wanted) => void;
  onChange: (set: PracticeSet) => void;
  onAdd: () => void;
}

function Sets({ sets, begin, onChange, onAdd }: SetsProps) {
  const { practice: said } = words;
  const shown = (sets ?? []).filter((one) => leads.value || one.open);
  return (
    <section class="practice-sets" aria-label={leads.value ? said.set.title : said.sets}>
      <h2>{leads.value ? said.set.title : said.sets}</h2>
      {sets && shown.length === 0 ? <p class="soft">{leads.value ? said.set.none : said.no_sets}</p> : null}
      <ul class="things">
        {shown.map((one) => (
          <li key={one.id} class="practice-set">
            <div>
              <p class="thing-name">{one.name}</p>
              <p class="small soft">
                {said.difficulty_of(one.difficulty)}
                {leads.value ? `. ${one.open ? said.set.opens.open : said.set.opens.closed}` : ''}
                {leads.value && one.faults ? `. ${one.faults.map(said.fault).join(', ')}` : ''}
              </p>
            </div>
            <div class="row">
              {leads.value ? (
                <button
                  type="button"
                  class="plain"
                  aria-label={said.set.change(one.name)}
                  onClick={() => onChange(one)}
                >
                  {words.shell.change}
                </button>
              ) : null}
              <button
                type="button"
                aria-label={said.begin_set_named(one.name)}
                onClick={() => begin({ difficulty: one.difficulty, set_id: one.id })}
              >
                {said.begin_set}
              </button>
            </div>
          </li>
        ))}
      </ul>
      {leads.value ? (
        <p class="row">
          <button type="button" onClick={onAdd}>
            {said.set.add}
          </button>
        </p>
      ) : null}
    </section>
  );
}

interface RunsProps {
  title: string;
  runs: readonly RunLine[];
  /** The shop has so many more. */
  earlier: number;
  onMore: () => void;
  none?: string;
  named?: boolean;
}

function Runs({ title, runs, earlier, onMore, none = '', named = false }: RunsProps) {
  const { practice: said } = words;
  const [first, rest] = [runs.slice(0, SHOWN), runs.slice(SHOWN)];
  return (
    <section class="practice-runs" aria-label={title}>
      <h2>{title}</h2>
      {runs.length === 0 ? <p class="soft">{none}</p> : null}
      <RunList runs={first} named={named} />
      {rest.length + earlier > 0 ? (
        <Opens title={earlier > 0 ? said.earlier : said.older(rest.length)}>
          <RunList runs={rest} named={named} />
          {earlier > 0 ? (
            <button type="button" onClick={onMore}>
              {said.still_earlier}
            </button>
          ) : null}
        </Opens>
      ) : null}
    </section>
  );
}

function RunList({ runs, named }: { runs: readonly RunLine[]; named: boolean }) {
  const { practice: said } = words;
  return (
    <ul class="things">
      {runs.map((run) => (
        <li key={run.id}>
          <a class="plain button thing" href={`/practice/${run.id}`}>
            <span class="thing-name">
              {named ? `${run.person_name}: ` : ''}
              {run.set_name ?? said.difficulty_of(run.difficulty)}
            </span>
            <span class="small soft">
              {moment(run.begun_at, new Date()) || calendarDay(run.begun_at)}. {standing(run)}
            </span>
          </a>
        </li>
      ))}
    </ul>
  );
}

function standing(run: RunLine): string {
  const { practice: said } = words;
  if (!run.ended) return run.person_id === person.value?.id ? said.on : said.not_ended;
  if (run.points === null) return said.ended;
  return `${said.points(whole(run.points))}${run.safe === false ? `, ${said.unsafe}` : ''}`;
}
