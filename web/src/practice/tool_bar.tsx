import { percent } from '../show/length';
import { words } from '../words';
import type { Side, ToolView } from './model';
import { micrometres, whole } from './numbers';
import { thrustShare, touchOf } from './touch';

/** One tool, seen as it is heard: in a word, large, and as two bars. */
export function ToolBar({ side, tool }: { side: Side; tool: ToolView }) {
  const { cut: said, side: sides } = words.practice_bench;
  const touch = touchOf(tool);
  return (
    <section class={`tool-bar tool-${touch}`} aria-label={sides[side]}>
      <h3>{sides[side]}</h3>
      <p class="tool-word">{said.touch[touch]}</p>
      <span class="tool-track" aria-hidden="true">
        <span class="tool-contact" style={{ width: `${100 * Math.min(1, tool.contact_share)}%` }} />
      </span>
      <span class="tool-track" aria-hidden="true">
        <span class="tool-thrust" style={{ width: `${100 * thrustShare(tool.thrust_n)}%` }} />
      </span>
      <p class="small soft figures">
        {said.contact(percent(tool.contact_share))}, {said.thrust(whole(tool.thrust_n))}
        {tool.swing_um > 0 ? `, ${said.swing(micrometres(tool.swing_um))}` : ''}
      </p>
    </section>
  );
}
