import { FileButton } from '../controls/file_button';
import { TroubleLine } from '../controls/trouble_line';
import { WAV } from '../detective/wav';
import { Choice } from '../shell/choice';
import { percent } from '../show/length';
import { words } from '../words';
import { timesText } from './texts';
import { aloneHeard, type Tone } from './tones';
import type { Listening } from './use_taps';

interface Props {
  taps: Listening;
  tone: Tone | null;
  band_times: number | null;
}

/** A tap on the hung disc, recorded with a phone: its tones, and which of them is counted with. */
export function TapWay({ taps, tone, band_times }: Props) {
  const { tap: said } = words.chatter;
  const alone = aloneHeard(taps.taps);
  const heard = alone ?? taps.taps.on ?? taps.taps.off;
  const both = alone !== null && taps.taps.on !== null;
  return (
    <>
      <p class="soft">{said.lead}</p>
      <Choice
        shown
        label={said.band}
        value={taps.band}
        options={(['off', 'on'] as const).map((value) => ({ value, label: said[value] }))}
        onChange={taps.setBand}
      />
      <FileButton class="chatter-file" accept={WAV} onFile={taps.hear}>
        {said.choose}
      </FileButton>
      <FileName name={taps.asked || taps.name} />
      <div aria-live="polite">
        {taps.busy ? <p class="soft">{said.listening}</p> : null}
        {!taps.asked && heard?.length === 0 ? <p>{said.nothing}</p> : null}
      </div>
      <TroubleLine text={taps.trouble} />
      {taps.asked ? <FileName name={taps.name} /> : null}
      {taps.cut ? <p class="small soft">{said.cut}</p> : null}
      {heard && heard.length > 0 ? (
        <>
          <ul class="chatter-tones">
            {heard.map((one) => (
              <li key={one.hz}>
                <span class="figures">{said.tone(one.hz.toFixed(0), (100 * one.zeta).toPrecision(2))}</span>
                <span class="small soft">{modeOf(one)}</span>
                {one === tone ? (
                  <span class="chatter-taken">{said.taken}</span>
                ) : (
                  <button type="button" class="plain" onClick={() => taps.pick(one)}>
                    {said.take}
                  </button>
                )}
              </li>
            ))}
          </ul>
          <p class="small soft">{said.pick_why}</p>
        </>
      ) : null}
      {heard && !taps.busy ? (
        <p class="row">
          <button type="button" class="plain" onClick={taps.forget}>
            {said.forget}
          </button>
        </p>
      ) : null}
      {both ? (
        <p>{band_times === null ? said.no_pair : said.worth(timesText(band_times))}</p>
      ) : heard ? (
        <p class="soft">{said.both}</p>
      ) : null}
    </>
  );
}

const FileName = ({ name }: { name: string }) => (name ? <p class="small file-name">{name}</p> : null);

const modeOf = ({ diameters, p_mode }: Tone): string => {
  const { tap: said } = words.chatter;
  return diameters === null ? said.no_mode : `${said.mode(diameters)} (${percent(p_mode)})`;
};
