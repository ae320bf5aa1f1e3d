import { call } from '../api/client';
import { useSaving } from '../controls/saving';
import { TroubleLine } from '../controls/trouble_line';
import { words } from '../words';

/** Competences and safety points to begin with, by one tap. */
export function StarterList({ onTaken }: { onTaken: () => void }) {
  const { competences } = words;
  const saving = useSaving();
  const take = () =>
    saving.run(async () => {
      await call('post', '/starter-lists');
      onTaken();
    });
  return (
    <div class="starter">
      <button type="button" disabled={saving.busy} onClick={take}>
        {competences.starter}
      </button>
      <p class="small soft">{competences.starter_note}</p>
      <TroubleLine text={saving.trouble?.message} />
    </div>
  );
}
