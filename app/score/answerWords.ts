import type { EntryBody } from '#lib/contract/entry';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import type { Criterion } from '#lib/sheet/criterion';
import type { Step } from './steps';

export const degreeWords = ['as asked', 'slight', 'clear', 'marked'] as const;
export const mannerWords = { relaxed: 'relaxed', tense: 'tense', fought: 'fought it' } as const;

/** An answer in words, as the list and the line above the keys say it; null where nothing is said. */
export function answerWords(step: Step, body: EntryBody | null): string | null {
  if (!body) return null;
  switch (body.kind) {
    case 'score':
    case 'free':
    case 'overall':
      if (body.cannotJudge) return 'cannot judge';
      if (body.value === null) return null;
      return 'criterion' in step ? gradeWords(step.criterion, body.value) : String(body.value);
    case 'check':
      return checkWords(body);
    case 'manner':
      return body.manner && mannerWords[body.manner];
    case 'fair':
      return body.fair ? 'a fair day' : 'not a fair day';
    case 'note':
      return body.text;
    case 'choice':
      return null;
  }
}

function gradeWords(criterion: Criterion, value: number): string {
  if (!criterion.twoSided) return String(value);
  if (value === 0) return 'as asked';
  const side = value < 0 ? criterion.labels.tooLittle : criterion.labels.tooMuch;
  return `${side} ${Math.abs(value)}, ${degreeWords[Math.abs(value)] ?? ''}`;
}

function checkWords(body: Extract<EntryBody, { kind: 'check' }>): string | null {
  if (body.answer === null) return null;
  const words = checkByKey(body.check)?.answers.find((answer) => answer.key === body.answer)?.words ?? body.answer;
  return body.detail === '' ? words : `${words}, ${body.detail} mm`;
}
