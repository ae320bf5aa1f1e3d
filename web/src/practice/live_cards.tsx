import { moment } from '../show/time';
import { words } from '../words';
import type { BenchView, RunLine } from './model';
import { whole } from './numbers';
import { stageOf } from './stage';
import { touchOf } from './touch';

/** A card for each bench at work: who, where they stand, and what the bench does. */
export function LiveCards({ runs }: { runs: readonly RunLine[] }) {
  const { live: said } = words.practice;
  return (
    <section class="practice-live" aria-label={said.title}>
      <h2>{said.title}</h2>
      {runs.length === 0 ? <p class="soft">{said.none}</p> : null}
      <ul class="practice-cards">
        {runs.map((run) => (
          <li key={run.id}>
            <a class="practice-card" href={`/practice/${run.id}`}>
              <span class="practice-card-name">{run.person_name}</span>{' '}
              <span class="practice-card-stage">
                {run.ended ? words.practice.ended : said.stage[stageOf(run.view)]}
              </span>{' '}
              <BenchDoes view={run.view} />{' '}
              <span class="small soft">
                {run.set_name ? `${words.practice.of_set(run.set_name)}. ` : ''}
                {said.last(moment(run.last_act_at, new Date()))}, {said.acts(run.view.acts)}
              </span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function BenchDoes({ view }: { view: BenchView }) {
  const { live: said } = words.practice;
  const { cut, side } = words.practice_bench;
  const tools = (['outboard', 'inboard'] as const).map(
    (one) => `${side[one]}: ${cut.touch[touchOf(view[one])].toLowerCase()}`,
  );
  return (
    <>
      <span class="figures">
        {view.rpm > 0 ? said.turning(whole(view.rpm)) : said.standing}
        {view.decided ? `, ${said.decided[view.decided]}` : ''}
      </span>
      {view.rpm > 0 ? tools.map((tool) => <span key={tool}>{tool}</span>) : null}
    </>
  );
}
