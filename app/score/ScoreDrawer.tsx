'use client';

import { registerOf } from '#lib/evaluation/outboxState';
import { Drawer } from '../_parts/Drawer';
import { BeforeStart } from './BeforeStart';
import { EntryList } from './EntryList';
import type { Drawn } from './ScoreFoot';
import { StepList } from './StepList';
import { TableControl } from './TableControl';
import { WorkOrderChoice } from './WorkOrderChoice';
import styles from './score.module.css';
import { stepTitle } from './steps';
import { useDraft } from './useDraft';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';
import type { StepWork } from './useStepWork';

type Props = {
  readonly drawn: Drawn;
  readonly scoring: Scoring;
  readonly shown: Shown;
  readonly work: StepWork;
  readonly onCard: () => void;
  readonly onClose: () => void;
};

/** What opens over the scoring screen. */
export function ScoreDrawer({ drawn, ...rest }: Props) {
  const { scoring, shown, work, onClose } = rest;
  const moved = (showingId: string) => {
    shown.go(showingId);
    onClose();
  };
  const subject = shown.showing.id;
  switch (drawn) {
    case 'list':
      return (
        <Drawer title="List" onClose={onClose}>
          <WorkOrderChoice round={scoring.round} />
          <StepList {...rest} onPicked={onClose} />
          <BeforeStart />
        </Drawer>
      );
    case 'note':
      return (
        <Drawer title={`Notes on ${shown.puppy.name}`} onClose={onClose}>
          {work.step && 'criterion' in work.step ? (
            <NoteForm
              key={`${subject} ${work.step.criterion.key}`}
              scoring={scoring}
              subject={subject}
              criterion={work.step.criterion.key}
              label={`About ${stepTitle(work.step)}`}
            />
          ) : null}
          <NoteForm
            key={subject}
            scoring={scoring}
            subject={subject}
            criterion={null}
            label={`About ${shown.puppy.name} as a whole`}
          />
        </Drawer>
      );
    case 'table':
      return (
        <Drawer title="The table" onClose={onClose}>
          <TableControl round={scoring.round} onMoved={moved} />
        </Drawer>
      );
    case 'entries':
      return (
        <Drawer title="Where your answers are" onClose={onClose}>
          <EntryList scoring={scoring} />
        </Drawer>
      );
  }
}

type NoteFormProps = {
  readonly scoring: Scoring;
  readonly subject: string;
  readonly criterion: string | null;
  readonly label: string;
};

/** A note in one's own words, kept as one types. Nobody else reads it before the reveal. */
function NoteForm({ scoring, subject, criterion, label }: NoteFormProps) {
  const body = scoring.answers.get(registerOf(subject, criterion === null ? 'note' : `note:${criterion}`))?.body;
  const draft = useDraft(body?.kind === 'note' ? body.text : '', (text) =>
    scoring.say(subject, { kind: 'note', criterion, text: text.trim() }),
  );
  return (
    <label className={`stack gap-4 bold ${styles.line}`}>
      <span>{label}</span>
      <textarea
        className="key full"
        maxLength={1000}
        value={draft.value}
        onChange={(event) => draft.type(event.target.value)}
        onBlur={draft.finish}
      />
    </label>
  );
}
