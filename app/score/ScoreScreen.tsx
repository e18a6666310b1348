'use client';

import { useState } from 'react';
import { entryField } from '#lib/evaluation/entryField';
import { settleMs } from '#lib/evaluation/followTable';
import { registerOf } from '#lib/evaluation/outboxState';
import { saysSomething } from '#lib/evaluation/ownAnswers';
import { PuppyIdentity } from '../_parts/PuppyIdentity';
import { useSettled } from '../_parts/useSettled';
import { useWide } from '../_parts/useWide';
import { EndOfPuppy } from './EndOfPuppy';
import { KeyRegion } from './KeyGrid';
import { KeyHints } from './KeyHints';
import { Notices } from './Notices';
import { ScoreDrawer } from './ScoreDrawer';
import { ScoreFoot, type Drawn } from './ScoreFoot';
import { StepList } from './StepList';
import styles from './ScoreScreen.module.css';
import { StepHead } from './StepHead';
import { StepHelp } from './StepHelp';
import { StepKeys, type PressedEdit } from './StepKeys';
import { StepPictures } from './StepPictures';
import { useDoubt } from './useDoubt';
import { useNextMove, type NextMove } from './useNextMove';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';
import { useStepWork } from './useStepWork';
import { useUndo, type Undo } from './useUndo';
import { WorkOrderChoice } from './WorkOrderChoice';

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
    <main className={styles.screen}>
      <header className={styles.banner}>
        <PuppyIdentity puppy={shown.puppy} ageDays={scoring.evaluation.ageDays} aside={<Place scoring={scoring} shown={shown} />} />
      </header>
      {wide && (
        <aside className={styles.side} aria-label="Puppies and questions">
          <WorkOrderChoice round={scoring.round} />
          <StepList scoring={scoring} shown={shown} work={work} onCard={onCard} />
        </aside>
      )}
      <section className={`${styles.question} ${scoring.round.medium === 'photographs' ? styles.pictured : ''}`} aria-label="Question" tabIndex={-1}>
        {work.step ? <StepHead scoring={scoring} work={work} step={work.step} subject={subject} /> : <EndOfPuppy shown={shown} work={work} />}
        {work.step && <StepPictures scoring={scoring} shown={shown} step={work.step} />}
        {work.step && <StepHelp key={work.index} step={work.step} />}
      </section>
      <KeyRegion className={styles.hand} label="Answer">
        <Notices scoring={scoring} shown={shown} work={work} undo={undo} doubt={doubt} paused={pausedAt === here} onPause={() => pause(here)} />
        {next.failure}
        {work.step && (
          <StepKeys
            key={`${subject} ${work.index}`}
            scoring={scoring}
            step={work.step}
            subject={subject}
            change={(edit) => doubt.ask(edit) || change(scoring, undo, { ...edit, subject })}
            onNext={next.press}
            takeFocus={wide || work.moved}
          />
        )}
        <ScoreFoot
          scoring={scoring}
          next={next}
          takeFocus={work.step === null && work.moved}
          back={next.back}
          noted={saysSomething(note)}
          draw={draw}
        />
        {wide && <KeyHints step={work.step} />}
      </KeyRegion>
      {drawer && <ScoreDrawer drawn={drawer} scoring={scoring} shown={shown} work={work} onCard={onCard} onClose={() => draw(null)} />}
    </main>
  );
}

function noteFieldOf(step: ReturnType<typeof useStepWork>['step']): string {
  return step !== null && 'criterion' in step ? `note:${step.criterion.key}` : 'note';
}

function change(scoring: Scoring, undo: Undo, { subject, body, cleared }: PressedEdit & { readonly subject: string }): void {
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
      {shown.table?.showing.id === shown.showing.id && <span className={styles.onTable}>on the table</span>}
    </>
  );
}
