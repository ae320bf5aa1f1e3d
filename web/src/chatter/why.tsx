import type { CalcOutlookOutput } from '../api/schema';
import { Caution } from '../controls/caution';
import { Opens } from '../controls/opens';
import { words } from '../words';
import { depthText } from './texts';

const S_PER_MIN = 60;

/** What gives way first, and why two tools are worse than one. */
export function Why({ outlook, rpm }: { outlook: CalcOutlookOutput; rpm: number }) {
  const { governs, why: said } = words.chatter;
  const { governed_by, disc, tools, single_side_mm, single_by, sings_hz } = outlook;
  const waves = ((sings_hz * S_PER_MIN) / rpm).toFixed(0);
  return (
    <section class="chatter-block" aria-label={said.title}>
      <h2>{governs[governed_by]}</h2>
      <p>
        {governed_by === 'disc'
          ? said.disc(depthText(disc.mm), depthText(single_side_mm))
          : said.tools(depthText(tools.mm), depthText(disc.mm))}{' '}
        {governed_by === 'disc' && single_by === 'tools' ? said.alone : ''}
      </p>
      <Opens title={said.title}>
        <p>{said.waves}</p>
        <p>{said.hertz(sings_hz.toFixed(0))}</p>
        <p>{said.speed(waves, String(rpm))}</p>
      </Opens>
    </section>
  );
}

/** What can be done, and the caution before it is done. */
export function Remedies({
  governed_by,
  open = false,
}: {
  governed_by: CalcOutlookOutput['governed_by'];
  open?: boolean;
}) {
  const { remedy } = words.chatter;
  return (
    <Opens title={remedy.title} open={open}>
      <ul>
        {remedy[governed_by].map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
      <p class="small soft">{remedy.basis[governed_by]}</p>
      <Caution title={remedy.caution}>
        <p>{remedy.caution_text}</p>
      </Caution>
    </Opens>
  );
}
