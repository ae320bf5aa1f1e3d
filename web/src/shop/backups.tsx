import { useEffect, useState } from 'preact/hooks';
import { call } from '../api/client';
import type { Backup } from '../api/schema';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { moment } from '../show/time';
import { words } from '../words';
import { ShopFrame } from './frame';

/** One file with everything, made while the shop runs; and how it comes back. */
export function Backups() {
  const { backups } = words.shop;
  const [kept, setKept] = useState<Backup[] | null>(null);
  const [made, setMade] = useState('');
  const saving = useSaving();
  const read = async () => setKept(await call('get', '/backups'));
  useEffect(() => {
    void saving.run(read);
  }, []);
  const make = () =>
    saving.run(async () => {
      const backup = await call('post', '/backups');
      setMade(backup.name);
      await read();
    });
  const { name, at, size } = backups.columns;
  const newest = kept?.[0];
  return (
    <ShopFrame
      room="backups"
      next={
        <button type="button" class="main" disabled={saving.busy} onClick={make}>
          {saving.busy ? backups.making : backups.make}
        </button>
      }
    >
      <p class="soft">{backups.lead}</p>
      <p role="status">{made ? backups.made(made) : ''}</p>
      <TroubleLine text={saving.trouble?.message} />
      {kept?.length === 0 ? <p class="soft">{backups.none}</p> : null}
      {kept && kept.length > 0 ? (
        <table>
          <thead>
            <tr>
              <th scope="col">{at}</th>
              <th scope="col">{name}</th>
              <th scope="col" class="figures">
                {size}
              </th>
            </tr>
          </thead>
          <tbody>
            {kept.map((one) => (
              <tr key={one.name}>
                <td>{moment(one.at, new Date())}</td>
                <td class="file-name">{one.name}</td>
                <td class="figures">{backups.bytes(one.bytes)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
      <section class="restore" aria-label={backups.restore_title}>
        <h2>{backups.restore_title}</h2>
        <ol class="restore-steps">
          {backups.restore.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
        <pre class="figures">
          {backups.command} {newest?.name ?? ''}
        </pre>
      </section>
    </ShopFrame>
  );
}
