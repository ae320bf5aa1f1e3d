import { address } from '../api/client';
import { words } from '../words';
import { ShopFrame } from './frame';

export function Exports() {
  const { exports } = words.shop;
  return (
    <ShopFrame room="exports">
      <p class="soft">{exports.lead}</p>
      <div class="row">
        <a class="button main" href={address('/export.json')} download="shop.json">
          {exports.whole}
        </a>
      </div>
      <p class="small soft">{exports.jobs}</p>
    </ShopFrame>
  );
}
