import { registerOf } from '#lib/evaluation/outboxState';
import type { AnswerPlace, OwnAnswer } from '#lib/evaluation/ownAnswers';
import type { Sheet } from '#lib/sheet/sheet';
import { refusalText } from '../_data/refusalText';
import { answerWords } from './answerWords';
import { silentSince } from './linkWords';
import styles from './score.module.css';
import { isAnswered, type Step, stepField, stepGroup, stepTitle } from './steps';
import type { Scoring } from './useScoring';
import type { StepWork } from './useStepWork';

type Props = { readonly scoring: Scoring; readonly work: StepWork; readonly step: Step; readonly subject: string };

/** What is asked: where one is, from where one looks, the name, what stands, and what the ends of the scale mean. */
export function StepHead({ scoring, work, step, subject }: Props) {
  const said = placeWords(scoring, step, subject);
  return (
    <div className="stack upright">
      <StepPath work={work} subject={subject} answers={scoring.answers} />
      <p className={`small ${styles.from}`}>
        {scoring.round.cells === null ? '' : 'Second round · '}
        {stepGroup(step)}
        {manner(step)}
      </p>
      <h2 className={styles.title}>{stepTitle(step)}</h2>
      <p className={`${said === null ? 'small' : placeTones[said.place]} ${styles.said}`}>
        {said === null ? 'Nothing said yet' : said.words}
      </p>
      <StepAnchors step={step} scale={scoring.evaluation.sheet.scale} />
    </div>
  );
}

function manner(step: Step): string {
  switch (step.kind) {
    case 'score':
      return step.criterion.twoSided ? ' · what is asked lies in the middle' : '';
    case 'free':
      return ' · optional: as it stands by itself';
    case 'check':
      return ' · never added to a score';
    case 'day':
      return ' · how it went';
    case 'overall':
      return ' · stays outside merit';
  }
}

/** The colour only repeats what the words say. */
const placeTones: Readonly<Record<AnswerPlace, string>> = {
  server: 'tone-calm bold',
  phone: 'tone-note bold',
  late: 'tone-note bold',
  refused: 'fault',
};

/** What stands for one question and where it is, in words; null while nothing was ever said. */
function placeWords(
  { answers, view }: Pick<Scoring, 'answers' | 'view'>,
  step: Step,
  subject: string,
): { readonly words: string; readonly place: AnswerPlace } | null {
  const answer = answers.get(registerOf(subject, stepField(step)));
  if (!answer) return null;
  const words = answerWords(step, answer.body) ?? 'cleared';
  switch (answer.place) {
    case 'server':
      return { words: `${words} · on the server`, place: 'server' };
    case 'phone':
      return {
        words: `${words} · ${silentSince(view) === null ? '' : 'not confirmed, '}only on this device so far`,
        place: 'phone',
      };
    case 'late':
      return { words: `Last change came late: kept, not counted. Standing: ${words}`, place: 'late' };
    case 'refused':
      return {
        words: `Last change refused: ${refusalText({ data: { code: answer.code } })} Standing: ${words}`,
        place: 'refused',
      };
  }
}

type StepPathProps = {
  readonly work: StepWork;
  readonly subject: string;
  readonly answers: ReadonlyMap<string, OwnAnswer>;
};

/** Progress through this puppy: a stroke for each question, filled when answered, tall where one is. */
function StepPath({ work, subject, answers }: StepPathProps) {
  const { steps, index } = work;
  const width = 100 / steps.length;
  return (
    <div className="row small gap-10">
      <svg className={`grows ${styles.path}`} viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
        {steps.map((step, place) => (
          <rect
            key={place}
            x={place * width}
            y={place === index ? 0 : 2.5}
            width={width * 0.72}
            height={place === index ? 10 : 5}
            className={
              place === index ? styles.here : isAnswered(step, subject, answers) ? styles.done : styles.stepHeadOpen
            }
          />
        ))}
      </svg>
      <span className="figures">
        <span className="aloud">question </span>
        {Math.min(index + 1, steps.length)} of {steps.length}
      </span>
    </div>
  );
}

type StepAnchorsProps = { readonly step: Step; readonly scale: Sheet['scale'] };

/** The words that tie the ends of the scale, or a check's answers, to what the eye or hand finds. */
function StepAnchors({ step, scale }: StepAnchorsProps) {
  const lines = anchorLines(step, scale);
  if (lines.length === 0) return <p className={styles.plain}>{plainWords(step)}</p>;
  const worded = step.kind !== 'overall' && 'criterion' in step && step.criterion.twoSided;
  return (
    <dl className={worded ? `stack gap-6 ${styles.worded}` : `stack ${styles.anchors}`}>
      {lines.map(([mark, words]) => (
        <div key={mark}>
          <dt>{mark}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
  );
}

const overallAnchors = {
  low: 'Far from what you look for in this breed at this age.',
  middle: 'Some of it is there.',
  high: 'What you look for is there.',
} as const;

function anchorLines(step: Step, scale: Sheet['scale']): readonly (readonly [string, string])[] {
  if (step.kind === 'overall') return oneSided(overallAnchors, scale);
  if (step.kind !== 'score' && step.kind !== 'free') return [];
  const { criterion } = step;
  if (!criterion.twoSided) return oneSided(criterion.anchors, scale);
  const { anchors, labels } = criterion;
  return [
    [labels.tooLittle, anchors.tooLittle],
    ['as asked', anchors.asked],
    [labels.tooMuch, anchors.tooMuch],
  ];
}

type Anchors = { readonly low: string; readonly middle: string; readonly high: string };

function oneSided(anchors: Anchors, { low, high }: Sheet['scale']): readonly (readonly [string, string])[] {
  const middle = (low + high) / 2;
  return [
    [String(low), anchors.low],
    [Number.isInteger(middle) ? String(middle) : `${Math.floor(middle)}–${Math.ceil(middle)}`, anchors.middle],
    [String(high), anchors.high],
  ];
}

function plainWords(step: Step): string {
  if (step.kind === 'check') return step.check.help;
  return 'How the puppy took the table, and whether today shows it fairly. A tired, full or frightened puppy is not to blame.';
}
