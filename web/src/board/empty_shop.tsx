import { call } from '../api/client';
import type { ShopView } from '../api/schema';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { go } from '../route/router';
import { loadShop, shop } from '../state/shop';
import { words } from '../words';

interface FirstStep {
  name: string;
  why: string;
  done: boolean;
  to: string;
}

export function firstSteps(view: ShopView): FirstStep[] {
  const { start } = words.board;
  const micrometer = view.instruments.some((one) => one.kind === 'micrometer');
  return [
    { name: start.person, why: start.why_person, done: view.people.length > 0, to: '/shop/people' },
    { name: start.micrometer, why: start.why_micrometer, done: micrometer, to: '/shop/instruments' },
    { name: start.lathe, why: start.why_lathe, done: view.lathes.length > 0, to: '/shop/lathes' },
    { name: start.job, why: start.why_job, done: false, to: '/jobs/new' },
  ];
}

/** The first of them that is still to do: the main way on of an empty shop. */
export const firstToDo = (view: ShopView): FirstStep | undefined => firstSteps(view).find((step) => !step.done);

/** What to do first, and what of it is done. */
export function EmptyShop() {
  const { busy, trouble, run } = useSaving();
  const view = shop.value;
  if (!view) return null;
  const { start } = words.board;
  const steps = firstSteps(view);
  const first = steps.findIndex((step) => !step.done);
  const practise = () =>
    run(async () => {
      const file = await call('post', '/practice-job');
      await loadShop();
      go(`/jobs/${file.job.number}/verdict`);
    });
  return (
    <div class="empty-shop">
      <p class="soft">{start.lead}</p>
      <ol class="first-steps">
        {steps.map((step, i) => (
          <li key={step.to} class={step.done ? 'done' : ''}>
            <a href={step.to} aria-current={i === first ? 'step' : undefined}>
              <span class="first-mark figures" aria-hidden="true">
                {step.done ? '✓' : i + 1}
              </span>
              <span class="job-what">
                <span class="job-vehicle">{step.name}</span>{' '}
                <span class="soft small">{step.done ? start.done : step.why}</span>
              </span>
            </a>
          </li>
        ))}
      </ol>
      <div class="practice">
        <button type="button" disabled={busy} onClick={practise}>
          {start.practice}
        </button>
        <p class="soft small">{start.practice_why}</p>
        <TroubleLine text={trouble?.message} />
      </div>
    </div>
  );
}
