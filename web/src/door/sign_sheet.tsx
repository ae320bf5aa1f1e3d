import { signal } from '@preact/signals';
import { useState } from 'preact/hooks';
import { call, type Sent } from '../api/client';
import { newId } from '../api/ids';
import type { RefusalBody } from '../api/schema';
import { Drawer } from '../shell/drawer';
import { capital } from '../show/typeset';
import { doors, loadDoors } from '../state/doors';
import { words } from '../words';
import { useAttempt } from './attempt';
import './door.css';
import { operationOf } from './operations';
import { SecretField } from './secret_field';

interface Given {
  person_id: string;
  token: string;
}

interface Asked {
  id: string;
  /** What the API calls it. */
  operation: string;
  why: string;
  settle: (given: Given | null) => void;
}

const asked = signal<Asked[]>([]);

/** Asks a teacher at this tablet to sign for what was refused; null for what nobody signs, and when the sheet is closed. */
export async function askSignature(sent: Sent, why: RefusalBody): Promise<Given | null> {
  const operation = await operationOf(sent).catch(() => null);
  if (!operation?.['x-signable']) return null;
  void loadDoors().catch(() => undefined);
  return new Promise((resolve) => {
    const mine: Asked = {
      id: newId(),
      operation: operation.operationId,
      why: why.message,
      settle: (given) => {
        asked.value = asked.value.filter((one) => one !== mine);
        resolve(given);
      },
    };
    asked.value = [...asked.value, mine];
  });
}

/** Nobody is here to sign any more. */
export function askNoMore(): void {
  for (const one of asked.value) one.settle(null);
}

export function SignSheet() {
  const first = asked.value[0];
  if (!first) return null;
  return (
    <Drawer title={words.door.sign_title} onClose={() => first.settle(null)}>
      <SignForm key={first.id} asked={first} />
    </Drawer>
  );
}

function SignForm({ asked: { operation, why, settle } }: { asked: Asked }) {
  const signers = (doors.value?.people ?? []).filter((one) => one.can_sign);
  const [chosen, setChosen] = useState<string | null>(null);
  const [pin, setPin] = useState('');
  const attempt = useAttempt();
  const who = chosen ?? (signers.length === 1 ? (signers[0]?.id ?? null) : null);
  const sign = async (event: Event) => {
    event.preventDefault();
    if (!who || pin === '' || attempt.busy) return;
    await attempt.run(async () => {
      const { token } = await call('post', '/signatures', { body: { person_id: who, pin, operation } });
      settle({ person_id: who, token });
    });
    setPin('');
  };
  const { door } = words;
  return (
    <form class="door-form" onSubmit={sign}>
      <p>{capital(why)}.</p>
      {signers.length === 0 ? <p class="doubt">{door.sign_none}</p> : null}
      <fieldset>
        <legend class="group-label">{door.sign_who}</legend>
        <ul class="tiles">
          {signers.map((one) => (
            <li key={one.id}>
              <button type="button" aria-pressed={one.id === who} onClick={() => setChosen(one.id)}>
                {one.name}
              </button>
            </li>
          ))}
        </ul>
      </fieldset>
      {who ? (
        <>
          <SecretField
            kind="pin"
            label={door.sign_pin}
            value={pin}
            focused
            disabled={attempt.wait_s > 0}
            error={attempt.said}
            onInput={setPin}
          />
          <button type="submit" class="main" disabled={attempt.busy || pin === '' || attempt.wait_s > 0}>
            {door.sign}
          </button>
        </>
      ) : null}
    </form>
  );
}
