import { address } from '../api/client';
import { CHECK_ADDRESS } from '../record/record_check';
import { words } from '../words';
import { ShopFrame } from './frame';

export function Exports() {
  const { exports } = words.shop;
  return (
    <ShopFrame
      room="exports"
      next={
        <a class="button main" href={address('/export.json')} download="shop.json">
          {exports.whole}
        </a>
      }
    >
      <p class="soft">{exports.lead}</p>
      <p class="small soft">{exports.jobs}</p>
      <a class="button" href={CHECK_ADDRESS}>
        {words.record.check.open}
      </a>
    </ShopFrame>
  );
}
