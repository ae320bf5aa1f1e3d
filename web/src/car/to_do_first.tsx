import type { Tab } from '../measure/slots';
import { HubPicture } from '../pictures/hub';
import type { Turning } from '../pictures/ring_geometry';
import { shortestTurn, type Turn } from '../refit/turn';
import { words } from '../words';

/** What the hand does before a round is read, and what it looks like then. */
export interface First {
  title: string;
  /** In one line, over the reading. */
  short: string;
  lines: readonly string[];
  source: string;
  /** Empty where there is nothing to draw. */
  picture: string;
  says: string;
  turned: number;
  turn: Turn | null;
  bare: boolean;
}

export function firstOf(tab: Tab, studs: number, turning: Turning): First {
  const { car } = words;
  const plain = { turned: 0, turn: null, bare: false };
  if (tab.name === 'bearing_play') {
    const { title, lines, source } = car.play;
    return { ...plain, title, short: title, lines, source, picture: '', says: '' };
  }
  if (tab.name === 'hub_runout') {
    const { title, lines, source, picture } = car.hub;
    return { ...plain, title, short: title, lines, source, picture, says: car.hub.says(studs), bare: true };
  }
  const turned = tab.turned ?? 0;
  const turn = shortestTurn(turned, studs, turning);
  if (turn.by === 0) {
    const { title, lines, source, picture, says } = car.as_it_came;
    return { ...plain, title, short: title, lines, source, picture, says };
  }
  return {
    title: car.turned.title(turn.by, turn.sense),
    short: car.turned.title(turn.by, turn.sense),
    lines: car.turned.lines(turn.by, turn.sense),
    source: car.turned.source,
    picture: car.turned.picture,
    says: car.turned.says(turn.by, turn.sense),
    turned,
    turn,
    bare: false,
  };
}

export function ToDoFirst({ first, studs, turning }: { first: First; studs: number; turning: Turning }) {
  return (
    <div class={first.picture ? 'to-do' : 'to-do to-do-bare'}>
      {first.picture ? (
        <HubPicture
          name={first.picture}
          says={first.says}
          studs={studs}
          turning={turning}
          turned={first.turned}
          arrow={first.turn}
          bare={first.bare}
          numbers={first.turn ? countedAlong(first.turn, studs, turning) : []}
        />
      ) : null}
      <div class="to-do-words">
        <ol class="to-do-lines">
          {first.lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ol>
        <p class="small soft">{first.source}</p>
      </div>
    </div>
  );
}

/** The studs that the rotor passes, counted from the hub's mark in the way that it is turned. */
export function countedAlong({ by, sense }: Turn, studs: number, turning: Turning): string[] {
  return Array.from({ length: studs }, (_, stud) => {
    const along = sense === turning ? stud : (studs - stud) % studs;
    return along > 0 && along <= by ? String(along) : '';
  });
}
