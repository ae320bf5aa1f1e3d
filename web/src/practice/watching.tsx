import { Screen } from '../shell/screen';
import { words } from '../words';
import { FacePanel } from './face_panel';
import { BenchDoes } from './live_cards';
import { LookList } from './look_list';
import type { PracticeRun } from './model';
import { ReadingList } from './reading_list';
import { readingsOf } from './readings';
import { stageOf } from './stage';
import { ToolBar } from './tool_bar';
import './lists.css';

/** Somebody else's bench, as whoever leads sees it: nothing can be done here. */
export function Watching({ run }: { run: PracticeRun }) {
  const { practice } = words;
  const readings = readingsOf(run.acts);
  return (
    <Screen
      name="bench"
      title={practice.live.at(run.person_name)}
      next={
        <a class="button main" href="/practice">
          {practice.to_all}
        </a>
      }
    >
      <section class="bench-two" aria-label={practice.live.at(run.person_name)}>
        <div class="bench-thing">
          <p class="practice-card-stage">{practice.live.stage[stageOf(run.view)]}</p>
          <p class="practice-does">
            <BenchDoes view={run.view} />
          </p>
          <h2 class="heard">{words.practice_bench.cut.tools}</h2>
          <div class="tools">
            <ToolBar side="outboard" tool={run.view.outboard} />
            <ToolBar side="inboard" tool={run.view.inboard} />
          </div>
        </div>
        <div class="bench-beside">
          <LookList acts={run.acts} />
          <ReadingList readings={readings} instruments={run.bench.instruments} />
        </div>
        <FacePanel run={run} answers={run.view.acts} />
      </section>
    </Screen>
  );
}
