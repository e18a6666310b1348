import type { EvaluationPhase } from '#lib/evaluation/phase';
import { Disclosure } from '../board/Disclosure';
import { SeatCode } from './SeatCode';
import { SeatEnd } from './SeatEnd';
import { SeatRemoval } from './SeatRemoval';
import styles from './Setup.module.css';
import type { SetupView } from './setupDraft';

type SeatMoreProps = {
  readonly evaluationId: string;
  readonly seat: SetupView['seats'][number];
  readonly phase: EvaluationPhase;
  /** False for an organiser, who ends and removes nothing. */
  readonly owner: boolean;
};

/** What is seldom needed of a seat that is held, behind one press. */
export function SeatMore({ evaluationId, seat, phase, owner }: SeatMoreProps) {
  const ids = { id: evaluationId, seatId: seat.id };
  const code = !seat.owner && phase !== 'sealed';
  const removal = owner && phase !== 'scoring';
  if (seat.state === 'invited' || (!code && !removal)) return null;
  return (
    <div className={styles.more}>
      <Disclosure words={`More for ${seat.label}`}>
        {code ? <SeatCode ids={ids} label={seat.label} held /> : null}
        {owner && !seat.owner ? <SeatEnd ids={ids} label={seat.label} /> : null}
        {removal ? <SeatRemoval evaluationId={evaluationId} seat={seat} /> : null}
      </Disclosure>
    </div>
  );
}
