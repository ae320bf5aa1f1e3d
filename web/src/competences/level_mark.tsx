import type { EvidenceLevel } from '../api/schema';
import { words } from '../words';

/** A level by its shape: an open circle, a half-filled one, a full one, and a ticked square. Its word stands beside it. */
export function LevelMark({ level }: { level: EvidenceLevel | null }) {
  return (
    <svg class="level-mark" viewBox="0 0 24 24" aria-hidden="true" fill="none" stroke="currentColor" stroke-width="2">
      {level === null ? <path d="M8 12h8" /> : null}
      {level === 'seen' ? <circle cx="12" cy="12" r="7" /> : null}
      {level === 'with_help' ? (
        <>
          <circle cx="12" cy="12" r="7" />
          <path d="M12 5a7 7 0 0 1 0 14z" fill="currentColor" />
        </>
      ) : null}
      {level === 'alone' ? <circle cx="12" cy="12" r="7" fill="currentColor" /> : null}
      {level === 'signed' ? (
        <>
          <rect x="3" y="3" width="18" height="18" fill="currentColor" />
          <path d="M7 12.5 11 16.5 17.5 8" stroke="var(--plate)" stroke-width="2.5" />
        </>
      ) : null}
    </svg>
  );
}

export const levelWord = (level: EvidenceLevel | null): string =>
  level ? words.competences.level[level] : words.competences.nothing;
