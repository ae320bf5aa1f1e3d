import { send } from '../api/client';
import type { CalcPulsationOutput } from '../api/schema';
import { Field } from '../controls/field';
import { UNREACHABLE } from '../controls/saving';
import { useAnswerTo } from '../state/answer';
import { words } from '../words';

interface Props {
  value: string;
  error: string | undefined;
  onInput: (text: string) => void;
  onEnter?: (() => void) | undefined;
}

const WAIT_MS = 250;
const MM_PER_M = 1000;
/** Any speed does: only how far the tyre rolls is asked. */
const SOME_SPEED = [{ speed_km_per_h: 50 }];

/** A tyre's size as on its wall, with what the shop reads from it as soon as it can. */
export function TyreField({ value, error, onInput, onEnter }: Props) {
  const { rolling } = words.arrival;
  const tyre = value.trim();
  const { answer, trouble } = useAnswerTo(tyre || null, () => rollingOf(tyre), WAIT_MS);
  const refusal = trouble?.code === UNREACHABLE ? undefined : trouble?.message;
  const turn = answer ? rolling.turn(metres(answer.low_mm), metres(answer.high_mm)) : '';
  return (
    <Field
      label={rolling.tyre}
      hint={rolling.tyre_hint}
      maxLength={60}
      value={value}
      error={error ?? refusal}
      note={
        <>
          {rolling.tyre_note} <span class="figures">{turn}</span>
        </>
      }
      onInput={onInput}
      onEnter={onEnter}
    />
  );
}

async function rollingOf(tyre: string): Promise<CalcPulsationOutput['rolling']> {
  const body = { tyre, observations: SOME_SPEED };
  const answer = await send({ method: 'post', path: '/calc/pulsation', body });
  return (answer as CalcPulsationOutput).rolling;
}

const metres = (mm: number) => (mm / MM_PER_M).toFixed(2);
