import { useState } from 'preact/hooks';
import { Field } from '../controls/field';
import { TroubleLine } from '../controls/trouble_line';
import { ask } from '../route/router';
import { Choice } from '../shell/choice';
import { percent } from '../show/length';
import { words } from '../words';
import { GAPS_RANGE, type MarksRead, middleRadius, radiusRange } from './use_marks';
import { Remedies } from './why';

/** Marks on a spoilt face: how far apart, where and at what speed; the frequency that left them, and what it is of. */
export function MarksWay({ marks, speeds }: { marks: MarksRead; speeds: readonly number[] }) {
  const { marks: said } = words.chatter;
  const { figures, found, typed } = marks;
  const [gaps, setGaps] = useState(typed.gaps);
  const [radius, setRadius] = useState(typed.radius);
  const wrong = ([least, most]: readonly [number, number]) => said.wrong(least.toFixed(0), most.toFixed(0));
  const unit = <span class="unit">{said.mm}</span>;
  return (
    <>
      <p class="soft">{said.lead}</p>
      <Field
        label={said.ten_gaps}
        digits
        inputMode="decimal"
        value={gaps}
        error={marks.gaps === 'wrong' ? wrong(GAPS_RANGE) : undefined}
        onInput={(text) => {
          setGaps(text);
          ask({ gaps: text.trim() });
        }}
        after={unit}
      />
      <Field
        label={said.radius}
        hint={middleRadius(figures).toFixed(0)}
        digits
        inputMode="decimal"
        value={radius}
        error={marks.radius === 'wrong' ? wrong(radiusRange(figures)) : undefined}
        onInput={(text) => {
          setRadius(text);
          ask({ radius: text.trim() });
        }}
        after={unit}
      />
      <Choice
        shown
        label={said.rpm}
        value={String(typed.rpm)}
        options={speeds.map((rpm) => ({ value: String(rpm), label: String(rpm) }))}
        onChange={(rpm) => ask({ rpm })}
      />
      <div aria-live="polite">
        {found ? (
          <>
            <p class="chatter-lead figures">{said.hz(found.hz.toFixed(0), found.per_turn.toFixed(0))}</p>
            <p>
              {found.diameters === null
                ? said.not_disc
                : said.disc(words.chatter.tap.mode(found.diameters), percent(found.p_mode))}
            </p>
          </>
        ) : null}
      </div>
      {found ? <Remedies open governed_by={found.diameters === null ? 'tools' : 'disc'} /> : null}
      <TroubleLine text={marks.trouble} />
    </>
  );
}
