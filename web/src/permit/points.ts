import type { SafetyPoint, SafetyQuestion } from '../api/schema';

export const isRight = (one: SafetyQuestion) => one.answered?.was_right === true;
export const rightOf = (all: readonly SafetyQuestion[]) => all.filter(isRight).length;

/** The next point that is not answered right: after this one, else from the first on; null when all are. */
export function nextOpen(all: readonly SafetyQuestion[], after: string | null): SafetyQuestion | null {
  const at = all.findIndex((one) => one.safety_point_id === after);
  const turned = [...all.slice(at + 1), ...all.slice(0, at + 1)];
  return turned.find((one) => !isRight(one)) ?? null;
}

type Asks = Pick<SafetyPoint, 'question' | 'choices' | 'right_choice'>;

/** What a form asks: without empty choices, and the right one counted among the others. -1 where the right one is empty. */
export function askedBy({ question, choices, right_choice }: Asks): Asks {
  const filled = choices.map((text, index) => ({ text: text.trim(), index })).filter((one) => one.text !== '');
  return {
    question: question.trim(),
    choices: filled.map((one) => one.text),
    right_choice: filled.findIndex((one) => one.index === right_choice),
  };
}

/** Whether everybody is asked anew: another question, other choices, or another right one. */
export const asksAnew = (point: Asks, asks: Asks): boolean =>
  JSON.stringify(askedBy(point)) !== JSON.stringify(askedBy(asks));
