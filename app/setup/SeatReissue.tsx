import { Confirm } from '../_parts/Confirm';

type SeatReissueProps = {
  readonly label: string;
  /** Before it, a new device reads nothing of what stood before, and results say that the seat was reissued (BL9). */
  readonly beforeReveal: boolean;
  readonly busy: boolean;
  readonly onReissue: () => void;
};

/** For a seat whose device is lost: two presses, and between them what becomes of the old device and of the new one. */
export function SeatReissue({ label, beforeReveal, busy, onReissue }: SeatReissueProps) {
  return (
    <Confirm tone="quiet" words="Device lost: reissue this seat" about={label} doIt="End the old session and make a link" busy={busy} onConfirm={onReissue}>
      <p>
        The old device’s session ends at once; what it has not sent by then can no longer be sent. The new link works once.
        {beforeReveal
          ? ' The new device writes for this seat, but until the reveal it reads nothing of what was scored before. Every result will say that the seat was reissued.'
          : ''}
      </p>
    </Confirm>
  );
}
