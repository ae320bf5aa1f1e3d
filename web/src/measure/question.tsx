import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { typedLength } from '../show/length';
import { words } from '../words';
import { keepQuestioned, questioned, retypeQuestioned, takeSuggestion } from './at_bench';
import { whereOf } from './reading_field';
import { doubtsOf, type Shown } from './shown';

/** A reading that looks wrong, asked big where it was typed; each answer is one key. */
export function Question() {
  const one = questioned.value;
  return one ? <Doubtful one={one} /> : null;
}

function Doubtful({ one }: { one: Shown }) {
  const doubts = doubtsOf(one.entry);
  const suggestion = doubts.find((doubt) => doubt.suggestion)?.suggestion;
  return (
    <Asked
      title={words.measure.question.title(whereOf(one.slot), one.text)}
      where={whereOf(one.slot)}
      value={words.measure.question.value(one.text)}
      says={doubts.length ? doubts.map((doubt) => doubt.message) : [one.entry?.refusal?.message ?? '']}
    >
      {one.state === 'questioned' && (
        <Answer letter="K" onClick={() => keepQuestioned(one)}>
          {words.measure.question.keep}
        </Answer>
      )}
      <Answer letter="R" onClick={() => retypeQuestioned(one)}>
        {words.measure.question.retype}
      </Answer>
      {suggestion && (
        <Answer letter="U" onClick={() => takeSuggestion(one, suggestion.text, suggestion.unit)}>
          {words.measure.question.suggestion(typedLength(suggestion))}
        </Answer>
      )}
    </Asked>
  );
}

interface AskedProps {
  title: string;
  where: string;
  value: string;
  says: string[];
  children: ComponentChildren;
}

function Asked({ title, where, value, says, children }: AskedProps) {
  const section = useRef<HTMLElement>(null);
  useLayoutEffect(() => section.current?.focus(), [title]);
  return (
    <section
      ref={section}
      class="question"
      tabIndex={-1}
      role="alertdialog"
      aria-label={title}
      aria-describedby="doubts"
    >
      {where && <p class="reading-place">{where}</p>}
      <p class="question-value digits">{value}</p>
      <div id="doubts">
        {says.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
      <div class="question-answers">{children}</div>
    </section>
  );
}

function Answer({ letter, onClick, children }: { letter: string; onClick: () => void; children: ComponentChildren }) {
  return (
    <button type="button" class="answer" aria-keyshortcuts={letter} onClick={onClick}>
      <kbd>{letter}</kbd>
      <span>{children}</span>
    </button>
  );
}
