import { useEffect, useState } from 'preact/hooks';
import { keepDoor, Refused } from '../api/client';
import { Door } from '../door/door';
import { FirstAccount } from '../door/first_account';
import { idle_s, touched, watchIdle } from '../door/idle';
import { askNoMore, askSignature, SignSheet } from '../door/sign_sheet';
import { CHECK_ADDRESS, RecordCheck } from '../record/record_check';
import { match, place } from '../route/router';
import { screens } from '../screens';
import { listen, listenNoMore } from '../state/connection';
import { doors, loadDoors, wasSignedOut } from '../state/doors';
import { jobFile, openJob } from '../state/job';
import { loadShop, person, shop } from '../state/shop';
import { words } from '../words';
import { Display } from './display';
import { PersonSwitch, PersonTiles } from './person_switch';
import { Screen, screenTitle } from './screen';
import { Sign } from './sign';
import { StepPath, stepAddress, stepOf } from './step_path';

const NUMBER = /^[0-9]+$/;

keepDoor({ idle_s, signedOut: wasSignedOut, sign: askSignature });
watchIdle();

/** The door first, where it is closed; whoever comes in finds the screen that the address names. */
export function App() {
  const [trouble, setTrouble] = useState('');
  const look = () => {
    setTrouble('');
    loadDoors().catch(() => setTrouble(words.shell.unreachable));
  };
  useEffect(look, []);
  useEffect(() => {
    const job = jobFile.value && place.value.path.startsWith('/jobs/') ? words.shell.job(jobFile.value.job.number) : '';
    document.title = [screenTitle.value, job, words.shell.brand].filter(Boolean).join(' · ');
  }, [screenTitle.value, place.value.path, jobFile.value]);
  const view = doors.value;
  if (trouble) return <Trouble text={trouble} again={look} />;
  if (!view) return <p class="moment soft">{words.shell.loading}</p>;
  if (view.closed && !view.you) return place.value.path === CHECK_ADDRESS ? <RecordCheck /> : <Door />;
  if (!view.closed && view.people.length === 0 && (shop.value?.people.length ?? 0) === 0) {
    return <FirstAccount onDone={() => undefined} />;
  }
  return <Inside key={view.you?.person_id ?? 'open'} />;
}

/** The shop, as whoever is at this tablet sees it. */
function Inside() {
  const [trouble, setTrouble] = useState('');
  const start = () => {
    setTrouble('');
    touched();
    loadShop().then(
      (view) => listen(view.seq),
      (cause) => {
        if (!(cause instanceof Refused && cause.status === 401)) setTrouble(words.shell.unreachable);
      },
    );
    return () => {
      listenNoMore();
      askNoMore();
    };
  };
  useEffect(start, []);

  if (trouble) return <Trouble text={trouble} again={start} />;
  if (!shop.value) return <p class="moment soft">{words.shell.loading}</p>;
  if (!person.value) return <Welcome />;
  return (
    <>
      <Shown />
      <SignSheet />
    </>
  );
}

function Shown() {
  const found = match(screens, place.value.path);
  const number = found?.parameters.number;
  if (!found) return <Nothing text={words.shell.notFound} />;
  const { screen: Room, parameters } = found;
  if (!number || !NUMBER.test(number)) {
    return (
      <>
        <Top />
        <Room {...parameters} />
      </>
    );
  }
  const step = place.value.path.split('/')[3] ?? '';
  return <JobRoom number={number} step={step} room={() => <Room key={number} {...parameters} />} />;
}

/** A room that needs its job: reads it first, and shows the steps over it. */
function JobRoom({ number, step, room }: { number: string; step: string; room: () => preact.JSX.Element }) {
  const [trouble, setTrouble] = useState('');
  const read = () => {
    setTrouble('');
    openJob(number).catch((cause: unknown) => {
      if (String(jobFile.value?.job.number) === number) return;
      setTrouble(cause instanceof Refused ? words.shell.unknownJob : words.shell.unreachable);
    });
  };
  useEffect(read, [number]);
  if (trouble) return <Trouble text={trouble} again={read} />;
  const here = String(jobFile.value?.job.number) === number;
  const current = stepOf(step);
  return (
    <>
      <Top job={here} />
      {current && <StepPath current={current} />}
      {here ? room() : <p class="moment soft">{words.shell.loading}</p>}
    </>
  );
}

function Top({ job = false }: { job?: boolean }) {
  const file = jobFile.value;
  return (
    <>
      <button type="button" class="skip" onClick={() => document.getElementById('main')?.focus()}>
        {words.shell.toMain}
      </button>
      <header class="top">
        <a class="plain button home" href="/" aria-label={job ? words.shell.toBoard : undefined}>
          {job ? <span aria-hidden="true">‹</span> : null}
          <span>{job ? words.shell.board : words.shell.brand}</span>
        </a>
        {job && file ? (
          <a class="plain button top-job" href={stepAddress(file.job.number, 'arrival')}>
            <strong>{words.shell.job(file.job.number)}</strong>
            <span class="soft top-vehicle">
              {file.job.vehicle}, {words.trade.axle[file.job.axle]}
            </span>
          </a>
        ) : (
          <p class="top-job soft">{shop.value?.settings.shop_name}</p>
        )}
        {shop.value?.settings.demo && <p class="top-demo small soft">{words.shell.demo}</p>}
        <div class="top-end">
          <Sign />
          <PersonSwitch />
          <Display />
        </div>
      </header>
    </>
  );
}

function Welcome() {
  return (
    <Screen name="welcome" title={words.who.title}>
      <p class="soft">{words.who.lead}</p>
      <PersonTiles onChosen={() => undefined} />
    </Screen>
  );
}

function Nothing({ text }: { text: string }) {
  return (
    <>
      <Top />
      <Screen
        name="nothing"
        title={text}
        next={
          <a class="button main" href="/">
            {words.shell.toBoard}
          </a>
        }
      >
        {null}
      </Screen>
    </>
  );
}

function Trouble({ text, again }: { text: string; again: () => void }) {
  return (
    <Screen
      name="trouble"
      title={text}
      next={
        <button type="button" class="main" onClick={again}>
          {words.shell.tryAgain}
        </button>
      }
      aside={
        <a class="button" href="/">
          {words.shell.toBoard}
        </a>
      }
    >
      {null}
    </Screen>
  );
}
