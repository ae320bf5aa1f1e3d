import type { ComponentChildren } from 'preact';
import { Screen } from '../shell/screen';
import { words } from '../words';
import './shop.css';

export type RoomName = keyof typeof words.shop.rooms;
export const ROOM_NAMES = Object.keys(words.shop.rooms) as RoomName[];

/** A room of the shop, with the way to the others beside it. */
export function ShopFrame({ room, children }: { room: RoomName; children: ComponentChildren }) {
  return (
    <Screen
      name="shop"
      title={words.shop.rooms[room][0]}
      next={
        <a class="button main later" href="/">
          {words.shell.board}
        </a>
      }
      aside={
        <a class="button shop-back" href="/shop">
          {words.shop.title}
        </a>
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
              <span>{words.shop.rooms[name][0]}</span>
              <span class="small soft">{words.shop.rooms[name][1]}</span>
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

export function Shop() {
  return (
    <Screen
      name="shop"
      title={words.shop.title}
      next={
        <a class="button main later" href="/">
          {words.shell.board}
        </a>
      }
    >
      <Rooms current={null} />
    </Screen>
  );
}
