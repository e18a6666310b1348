'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { EvaluationPhase } from '#lib/evaluation/phase';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_parts/refusalDetails';
import { SeatCode } from './SeatCode';
import { SeatReissue } from './SeatReissue';
import styles from './Setup.module.css';
import type { SetupView } from './setupDraft';
import { ShownLink } from './ShownLink';

type SeatLinkProps = {
  readonly evaluationId: string;
  readonly seat: SetupView['seats'][number];
  readonly phase: EvaluationPhase;
  readonly owner: boolean;
  readonly address: string | null;
};

/** A seat's one-time link, shown once: made freely while nobody has held the seat, by reissuing it after that. Or a spoken code. */
export function SeatLink({ evaluationId, seat, phase, owner, address }: SeatLinkProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const onSuccess = () => queries.invalidateQueries();
  const invite = useMutation(trpc.setup.invite.mutationOptions({ onSuccess }));
  const reissue = useMutation(trpc.setup.reissue.mutationOptions({ onSuccess }));
  const ids = { id: evaluationId, seatId: seat.id };
  const leftBefore = refusalDetails(invite.error)?.code === 'in-use';
  const token = reissue.data?.token ?? invite.data?.token ?? null;
  const held = seat.state !== 'invited';
  return (
    <>
      {token !== null && seat.linkWaiting ? <ShownLink label={seat.label} token={token} address={address} /> : null}
      <Refusal error={invite.error} words={leftBefore ? 'A device has held this seat before. A new link for it is made by reissuing the seat.' : null} />
      <Refusal error={reissue.error} />
      {held || leftBefore || reissue.data ? null : (
        <MakeLink label={seat.label} again={token !== null || seat.linkWaiting} busy={invite.isPending} onMake={() => invite.mutate(ids)} />
      )}
      {held ? null : <SeatCode ids={ids} label={seat.label} held={false} />}
      {owner && (held || leftBefore || reissue.data) ? (
        <SeatReissue
          key={token}
          label={seat.label}
          beforeReveal={phase === 'preparing' || phase === 'scoring'}
          busy={reissue.isPending}
          onReissue={() => {
            invite.reset();
            reissue.mutate(ids);
          }}
        />
      ) : null}
    </>
  );
}

type MakeLinkProps = { readonly label: string; readonly again: boolean; readonly busy: boolean; readonly onMake: () => void };

function MakeLink({ label, again, busy, onMake }: MakeLinkProps) {
  return (
    <>
      <Button tone={again ? 'plain' : 'main'} busy={busy} aria-label={again ? `Make a fresh link for ${label}` : `Make link for ${label}`} onClick={onMake}>
        {again ? 'Make a fresh link' : 'Make link'}
      </Button>
      {again ? <p className={`small ${styles.grow}`}>A fresh link replaces the one before, which then no longer works.</p> : null}
    </>
  );
}
