import { useEffect, useRef, useState } from 'preact/hooks';
import { Refused, send } from '../api/client';
import type { CalcPulsationOutput } from '../api/schema';
import { Field } from '../controls/field';
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
  const [turn, setTurn] = useState('');
  const [refusal, setRefusal] = useState('');
  const asked = useRef(0);
  const tyre = value.trim();
  useEffect(() => {
    asked.current += 1;
    const mine = asked.current;
    const settle = (covers: string, why: string) => {
      if (mine !== asked.current) return;
      setTurn(covers);
      setRefusal(why);
    };
    if (tyre === '') {
      settle('', '');
      return undefined;
    }
    const timer = setTimeout(() => {
      rollingOf(tyre).then(
        (found) => settle(rolling.turn(metres(found.low_mm), metres(found.high_mm)), ''),
        (cause) => settle('', cause instanceof Refused ? cause.body.message : ''),
      );
    }, WAIT_MS);
    return () => clearTimeout(timer);
  }, [tyre]);
  return (
    <Field
      label={rolling.tyre}
      hint={rolling.tyre_hint}
      maxLength={60}
      value={value}
      error={error ?? (refusal || undefined)}
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
