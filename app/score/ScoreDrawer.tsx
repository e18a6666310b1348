'use client';

import { Drawer } from '../_parts/Drawer';
import { BeforeStart } from './BeforeStart';
import { EntryList } from './EntryList';
import { NoteForm } from './NoteForm';
import type { Drawn } from './ScoreFoot';
import { StepList } from './StepList';
import { stepTitle } from './steps';
import { TableControl } from './TableControl';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';
import type { StepWork } from './useStepWork';
import { WorkOrderChoice } from './WorkOrderChoice';

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
          <BeforeStart evaluation={scoring.evaluation} />
        </Drawer>
      );
    case 'note':
      return (
        <Drawer title={`Notes on ${shown.puppy.name}`} onClose={onClose}>
          {work.step && 'criterion' in work.step && (
            <NoteForm key={`${subject} ${work.step.criterion.key}`} scoring={scoring} subject={subject} criterion={work.step.criterion.key} label={`About ${stepTitle(work.step)}`} />
          )}
          <NoteForm key={subject} scoring={scoring} subject={subject} criterion={null} label={`About ${shown.puppy.name} as a whole`} />
        </Drawer>
      );
    case 'table':
      return (
        <Drawer title="The table" onClose={onClose}>
          <TableControl evaluation={scoring.evaluation} round={scoring.round} onMoved={moved} />
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
