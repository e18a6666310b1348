'use client';

import { useState } from 'react';
import { entryField } from '#lib/evaluation/entries';
import { settleMs } from '#lib/evaluation/followTable';
import { registerOf } from '#lib/evaluation/outboxState';
import { saysSomething } from '#lib/evaluation/ownAnswers';
import { Disclosure } from '../_parts/Disclosure';
import { PuppyIdentity } from '../_parts/PuppyIdentity';
import { counted } from '../_parts/textWords';
import { useSettled } from '../_parts/useSettled';
import { useWide } from '../_parts/useWide';
import { PuppyPictures } from '../photos/PuppyPictures';
import { KeyRegion } from './KeyGrid';
import { Notices } from './Notices';
import { ScoreDrawer } from './ScoreDrawer';
import { type Drawn, ScoreFoot } from './ScoreFoot';
import { StepHead } from './StepHead';
import { StepHelp } from './StepHelp';
import { type PressedEdit, StepKeys } from './StepKeys';
import { StepList } from './StepList';
import { WorkOrderChoice } from './WorkOrderChoice';
import styles from './score.module.css';
import { type Step, stepTitle } from './steps';
import { useDoubt } from './useDoubt';
import { type NextMove, useNextMove } from './useNextMove';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';
import { type StepWork, useStepWork } from './useStepWork';
import { type Undo, useUndo } from './useUndo';

type Props = { readonly scoring: Scoring; readonly shown: Shown; readonly onCard: () => void };

/** One puppy, one question, one thumb. On a wide screen the list stands beside it. */
export function ScoreScreen({ scoring, shown, onCard }: Props) {
  const work = useStepWork(scoring, shown);
  const undo = useUndo();
  const doubt = useDoubt({ scoring, shown, step: work.step });
  const next = useSteadyNext(useNextMove({ scoring, shown, work, onCard }), shown);
  const wide = useWide();
  const [drawer, draw] = useState<Drawn | null>(null);
  const [pausedAt, pause] = useState<string | null>(null);
  const here = `${shown.index} ${work.index}`;
  const subject = shown.showing.id;
  const note = scoring.answers.get(registerOf(subject, noteFieldOf(work.step)))?.body ?? null;
  return (
    <main className={`stack ${styles.screen}`}>
      <header className={styles.banner}>
        <PuppyIdentity
          puppy={shown.puppy}
          ageDays={scoring.evaluation.ageDays}
          aside={<Place scoring={scoring} shown={shown} />}
        />
      </header>
      {wide ? (
        <aside className={styles.side} aria-label="Puppies and questions">
          <WorkOrderChoice round={scoring.round} />
          <StepList scoring={scoring} shown={shown} work={work} onCard={onCard} />
        </aside>
      ) : null}
      <QuestionAsked scoring={scoring} shown={shown} work={work} />
      <KeyRegion className={`stack topped gap-8 ${styles.hand}`} label="Answer">
        <Notices
          scoring={scoring}
          shown={shown}
          work={work}
          undo={undo}
          doubt={doubt}
          paused={pausedAt === here}
          onPause={() => pause(here)}
        />
        {next.failure}
        {work.step ? (
          <StepKeys
            key={`${subject} ${work.index}`}
            scoring={scoring}
            step={work.step}
            subject={subject}
            change={(edit) => doubt.ask(edit) || change(scoring, undo, { ...edit, subject })}
            onNext={next.press}
            takeFocus={wide || work.moved}
          />
        ) : null}
        <ScoreFoot
          scoring={scoring}
          next={next}
          takeFocus={work.step === null && work.moved}
          back={next.back}
          noted={saysSomething(note)}
          draw={draw}
        />
        {wide ? <KeyHints step={work.step} /> : null}
      </KeyRegion>
      {drawer ? (
        <ScoreDrawer
          drawn={drawer}
          scoring={scoring}
          shown={shown}
          work={work}
          onCard={onCard}
          onClose={() => draw(null)}
        />
      ) : null}
    </main>
  );
}

type QuestionAskedProps = { readonly scoring: Scoring; readonly shown: Shown; readonly work: StepWork };

/** What is asked of this puppy now, with its pictures and its help; or that it is done. */
function QuestionAsked({ scoring, shown, work }: QuestionAskedProps) {
  return (
    <section
      className={`${styles.question} ${scoring.round.medium === 'photographs' ? styles.pictured : ''}`}
      aria-label="Question"
      tabIndex={-1}
    >
      {work.step ? (
        <StepHead scoring={scoring} work={work} step={work.step} subject={shown.showing.id} />
      ) : (
        <EndOfPuppy shown={shown} work={work} />
      )}
      {work.step ? <StepPictures scoring={scoring} shown={shown} step={work.step} /> : null}
      {work.step ? <StepHelp key={work.index} step={work.step} /> : null}
    </section>
  );
}

function noteFieldOf(step: ReturnType<typeof useStepWork>['step']): string {
  return step !== null && 'criterion' in step ? `note:${step.criterion.key}` : 'note';
}

function change(
  scoring: Scoring,
  undo: Undo,
  { subject, body, cleared }: PressedEdit & { readonly subject: string },
): void {
  const before = scoring.answers.get(registerOf(subject, entryField(body)))?.body ?? null;
  scoring.say(subject, body);
  if (before === null || !saysSomething(before)) {
    undo.clear();
    return;
  }
  undo.put(cleared ? 'Cleared.' : 'Changed.', () => {
    scoring.say(subject, before);
    undo.clear();
  });
}

/**
 * From question to question at once. What leads away from the puppy, and everything just after the table has brought one,
 * takes no press for a moment: the thumb may still mean what stood there before.
 */
function useSteadyNext(next: NextMove, shown: Shown): NextMove & { readonly settled: boolean } {
  const stands = `${shown.broughtFrom ? shown.showing.id : ''} ${next.leaves ? next.words : ''}`;
  const settled = useSettled(stands, settleMs) || stands === ' ';
  return { ...next, settled, press: settled ? next.press : () => undefined };
}

function Place({ scoring, shown }: { readonly scoring: Scoring; readonly shown: Shown }) {
  return (
    <>
      <strong className={`figures ${styles.place}`}>
        {shown.index + 1} of {scoring.round.showings.length}
      </strong>
      {shown.table?.showing.id === shown.showing.id ? <span className="block">on the table</span> : null}
    </>
  );
}

type StepPicturesProps = { readonly scoring: Scoring; readonly shown: Shown; readonly step: Step };

/** Pictures beside the question: open where photographs are what is scored, folded away where the puppy itself stands there. */
function StepPictures({ scoring, shown, step }: StepPicturesProps) {
  const view = 'criterion' in step ? step.criterion.view : null;
  const pictures = (
    <PuppyPictures key={shown.showing.puppyId} puppyId={shown.showing.puppyId} name={shown.puppy.name} view={view} />
  );
  if (scoring.round.medium === 'photographs') return <div className={styles.stepPicturesOpen}>{pictures}</div>;
  return (
    <Disclosure bare className={styles.folded} words={`Pictures of ${shown.puppy.name}`}>
      {pictures}
    </Disclosure>
  );
}

/** What the keyboard does while the focus is within the keys. */
function KeyHints({ step }: { readonly step: Step | null }) {
  if (!step) return null;
  const hints = [
    ...typedHints(step),
    ['arrows', 'move'],
    ['space', 'choose, or take back'],
    ['Enter', 'next'],
  ] as const;
  return (
    <p className={`wrap small ${styles.hints}`}>
      {hints.map(([key, does]) => (
        <span key={key}>
          <kbd>{key}</kbd> {does}
        </span>
      ))}
    </p>
  );
}

function typedHints(step: Step): readonly (readonly [string, string])[] {
  if (step.kind === 'check' || step.kind === 'day') return [['1 2 3 …', 'answers in order']];
  if (step.kind !== 'overall' && step.criterion.twoSided) {
    const { labels } = step.criterion;
    return [
      ['0', 'as asked'],
      ['1 2 3', labels.tooMuch],
      ['− then 1 2 3', labels.tooLittle],
      ['c', 'cannot judge'],
    ];
  }
  return [
    ['digit', 'scores'],
    ['c', 'cannot judge'],
  ];
}

/** Past the last question: what is still open, and what happens next. */
function EndOfPuppy({ shown, work }: { readonly shown: Shown; readonly work: StepWork }) {
  const { missing, steps } = work;
  const name = shown.puppy.name;
  return (
    <div className="stack gap-10">
      <h2>
        {steps.length === 0
          ? `Nothing about ${name} is asked of your seat`
          : missing.length === 0
            ? `Everything about ${name} is answered`
            : `${counted(missing.length, 'question')} about ${name} open`}
      </h2>
      {missing.length > 0 ? (
        <p>An open question is not a fault. If you cannot tell, say so on its keys: that is an answer.</p>
      ) : null}
      <ul className={`list wrap gap-8 ${styles.endOfPuppyOpen}`}>
        {missing.map((step) => (
          <li key={stepTitle(step)}>
            <button type="button" className="key" onClick={() => work.go(steps.indexOf(step))}>
              {stepTitle(step)}
            </button>
          </li>
        ))}
      </ul>
      {shown.table?.showing.id === shown.showing.id ? (
        <p className="small">This screen moves on by itself when the next puppy is on the table.</p>
      ) : null}
    </div>
  );
}
