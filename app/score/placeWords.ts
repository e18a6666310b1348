import { registerOf } from '#lib/evaluation/outboxState';
import type { AnswerPlace } from '#lib/evaluation/ownAnswers';
import { refusalText } from '../_data/refusalText';
import { answerWords } from './answerWords';
import { silentSince } from './linkWords';
import { stepField, type Step } from './steps';
import type { Scoring } from './useScoring';

/** What stands for one question and where it is, in words; null while nothing was ever said. */
export function placeWords({ answers, view }: Pick<Scoring, 'answers' | 'view'>, step: Step, subject: string): { readonly words: string; readonly place: AnswerPlace } | null {
  const answer = answers.get(registerOf(subject, stepField(step)));
  if (!answer) return null;
  const words = answerWords(step, answer.body) ?? 'cleared';
  switch (answer.place) {
    case 'server':
      return { words: `${words} · on the server`, place: 'server' };
    case 'phone':
      return { words: `${words} · ${silentSince(view) === null ? '' : 'not confirmed, '}only on this device so far`, place: 'phone' };
    case 'late':
      return { words: `Last change came late: kept, not counted. Standing: ${words}`, place: 'late' };
    case 'refused':
      return { words: `Last change refused: ${refusalText({ data: { code: answer.code } })} Standing: ${words}`, place: 'refused' };
  }
}
