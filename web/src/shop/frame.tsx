import type { ComponentChildren } from 'preact';
import { Screen } from '../shell/screen';
import { words } from '../words';
import './shop.css';

export type RoomName = keyof typeof words.shop.rooms;
export const ROOM_NAMES = Object.keys(words.shop.rooms) as RoomName[];

/** A room of the shop, with the way to the others beside it. */
interface FrameProps {
  room: RoomName;
  /** The main thing to do here; without one, the way back to the board. */
  next?: ComponentChildren;
  aside?: ComponentChildren;
  children: ComponentChildren;
}

export function ShopFrame({ room, next, aside, children }: FrameProps) {
  return (
    <Screen
      name="shop"
      title={words.shop.rooms[room][0]}
      next={next ?? <ToBoard />}
      aside={
        aside ?? (
          <a class="button" href="/shop">
            {words.shop.title}
          </a>
        )
      }
    >
      <div class="shop">
        <Rooms current={room} />
        <div class="shop-room">{children}</div>
      </div>
    </Screen>
  );
}

export function Rooms({ current }: { current: RoomName | null }) {
  return (
    <nav class={current ? 'rooms-nav beside' : 'rooms-nav'} aria-label={words.shop.title}>
      <ul>
        {ROOM_NAMES.map((name) => (
          <li key={name}>
            <a href={`/shop/${name}`} aria-current={name === current ? 'page' : undefined}>
              <span>{words.shop.rooms[name][0]}</span> <span class="small soft">{words.shop.rooms[name][1]}</span>
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

export function Shop() {
  return (
    <Screen name="shop" title={words.shop.title} next={<ToBoard />}>
      <Rooms current={null} />
    </Screen>
  );
}

function ToBoard() {
  return (
    <a class="button main later" href="/">
      {words.shell.board}
    </a>
  );
}

/** The one form of a room is sent from where the next step always is. */
export const FORM = 'shop-form';

export function SaveForm() {
  return (
    <button type="submit" form={FORM} class="main">
      {words.shop.save}
    </button>
  );
}
