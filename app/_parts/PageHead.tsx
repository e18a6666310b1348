import Link from 'next/link';
import type { EvaluationPhase } from '#lib/evaluation/phase';
import styles from './PageHead.module.css';

type PageHeadProps = {
  readonly title: string;
  /** One small line of facts beside the title: "9 puppies · 56 days". */
  readonly facts?: string;
  /** Given on the pages of one evaluation: draws the way between them. */
  readonly evaluation?: {
    readonly id: string;
    readonly phase: EvaluationPhase;
    readonly owner: boolean /** A round is open or closed beside a result: there is something to score. */;
    readonly rescoring?: boolean /** A learner’s card is compared with a mentor’s here. */;
    readonly lesson?: boolean;
  };
  readonly here?: EvaluationPage | undefined;
};

/** The head of every desk page: the way home, the title (the page's only h1), its facts, and the way round an evaluation. */
export function PageHead({ title, facts, evaluation, here }: PageHeadProps) {
  return (
    <header className={styles.head}>
      <div className={styles.inner}>
        <Link href="/" className={`touch unprinted ${styles.home}`}>
          Evenstack
        </Link>
        <div className={`wrap ${styles.line}`}>
          <h1 className={styles.title}>{title}</h1>
          {facts ? <p className={`small figures ${styles.facts}`}>{facts}</p> : null}
          {evaluation ? <EvaluationNav evaluation={evaluation} here={here} /> : null}
        </div>
      </div>
    </header>
  );
}

type EvaluationNavProps = {
  readonly evaluation: NonNullable<PageHeadProps['evaluation']>;
  readonly here: EvaluationPage | undefined;
};

/** Only what exists in this phase is a link; the rest stands there as words, so that one sees what is still to come. */
function EvaluationNav({ evaluation, here }: EvaluationNavProps) {
  const pages = evaluationPages.filter(
    (page) => (evaluation.owner || !page.ownerOnly) && (evaluation.lesson === true || page.key !== 'lesson'),
  );
  return (
    <nav aria-label="Pages of this evaluation" className={`wrap unprinted ${styles.nav}`}>
      {pages.map(({ key, words, path, phases }) =>
        phases.includes(evaluation.phase) || (key === 'score' && evaluation.rescoring === true) ? (
          <Link
            key={key}
            href={`${path}?id=${evaluation.id}`}
            className={`touch strong ${styles.page}`}
            aria-current={key === here ? 'page' : undefined}
          >
            {words}
          </Link>
        ) : (
          <span key={key} className={`touch ${styles.later}`}>
            {words}
            <span className="aloud"> (later)</span>
          </span>
        ),
      )}
    </nav>
  );
}

export type EvaluationPage =
  | 'setup'
  | 'practice'
  | 'photos'
  | 'score'
  | 'lesson'
  | 'board'
  | 'look'
  | 'decision'
  | 'record';

type PageLine = {
  readonly key: EvaluationPage;
  readonly words: string;
  readonly path: string;
  /** Phases in which there is something to see. */
  readonly phases: readonly EvaluationPhase[];
  readonly ownerOnly: boolean;
};

const always = ['preparing', 'scoring', 'deciding', 'sealed'] as const;

/** The pages of one evaluation, in the order of the work. */
const evaluationPages: readonly PageLine[] = [
  { key: 'setup', words: 'Set-up', path: '/setup', phases: always, ownerOnly: true },
  { key: 'practice', words: 'Practice', path: '/practice', phases: ['preparing'], ownerOnly: false },
  { key: 'photos', words: 'Photographs', path: '/photos', phases: always, ownerOnly: false },
  { key: 'score', words: 'Score', path: '/score', phases: ['scoring'], ownerOnly: false },
  { key: 'lesson', words: 'Lesson', path: '/lesson', phases: ['deciding', 'sealed'], ownerOnly: false },
  { key: 'board', words: 'Board', path: '/board', phases: ['scoring', 'deciding', 'sealed'], ownerOnly: false },
  { key: 'look', words: 'Second looks', path: '/look', phases: ['deciding', 'sealed'], ownerOnly: false },
  { key: 'decision', words: 'Decision', path: '/decide', phases: ['deciding', 'sealed'], ownerOnly: false },
  { key: 'record', words: 'Record', path: '/record', phases: always, ownerOnly: false },
];
