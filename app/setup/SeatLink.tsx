'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import type { EvaluationPhase } from '#lib/evaluation/phase';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Confirm } from '../_parts/Confirm';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { Refusal } from '../_parts/Refusal';
import { copyText, useQrCode } from '../_parts/linkOut';
import { refusalDetails } from '../_data/refusalText';
import { SeatCode } from './SeatCode';
import styles from './setup.module.css';
import type { SetupView } from './setupDraft';

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
      <Refusal
        error={invite.error}
        words={
          leftBefore ? 'A device has held this seat before. A new link for it is made by reissuing the seat.' : null
        }
      />
      <Refusal error={reissue.error} />
      {held || leftBefore || reissue.data ? null : (
        <MakeLink
          label={seat.label}
          again={token !== null || seat.linkWaiting}
          busy={invite.isPending}
          onMake={() => invite.mutate(ids)}
        />
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

type MakeLinkProps = {
  readonly label: string;
  readonly again: boolean;
  readonly busy: boolean;
  readonly onMake: () => void;
};

function MakeLink({ label, again, busy, onMake }: MakeLinkProps) {
  return (
    <>
      <Button
        tone={again ? 'plain' : 'main'}
        busy={busy}
        aria-label={again ? `Make a fresh link for ${label}` : `Make link for ${label}`}
        onClick={onMake}
      >
        {again ? 'Make a fresh link' : 'Make link'}
      </Button>
      {again ? (
        <p className={`small ${styles.grow}`}>A fresh link replaces the one before, which then no longer works.</p>
      ) : null}
    </>
  );
}

type SeatReissueProps = {
  readonly label: string;
  /** Before it, a new device reads nothing of what stood before, and results say that the seat was reissued (BL9). */
  readonly beforeReveal: boolean;
  readonly busy: boolean;
  readonly onReissue: () => void;
};

/** For a seat whose device is lost: two presses, and between them what becomes of the old device and of the new one. */
function SeatReissue({ label, beforeReveal, busy, onReissue }: SeatReissueProps) {
  return (
    <Confirm
      tone="quiet"
      words="Device lost: reissue this seat"
      about={label}
      doIt="End the old session and make a link"
      busy={busy}
      onConfirm={onReissue}
    >
      <p>
        The old device’s session ends at once; what it has not sent by then can no longer be sent. The new link works
        once.
        {beforeReveal
          ? ' The new device writes for this seat, but until the reveal it reads nothing of what was scored before. Every result will say that the seat was reissued.'
          : ''}
      </p>
    </Confirm>
  );
}

type ShownLinkProps = { readonly label: string; readonly token: string; readonly address: string | null };

/** A seat's one-time link and its code, shown once; the server keeps only its hash. */
function ShownLink({ label, token, address }: ShownLinkProps) {
  const link = `${address ?? window.location.origin}/join#${token}`;
  const code = useQrCode(link);
  const field = useRef<HTMLInputElement>(null);
  const [copied, setCopied] = useState<'no' | 'yes' | 'failed'>('no');
  const copy = async () => setCopied((await copyText(link, field.current)) ? 'yes' : 'failed');
  return (
    <div className={`wrap topped gap-16 ${styles.shown}`}>
      {code === null ? null : (
        <img src={code} width={220} height={220} alt={`QR code of the link for ${label}`} className={styles.code} />
      )}
      <div className={`stack upright gap-12 ${styles.shownText}`}>
        <Field
          label={`Link for ${label}`}
          hint="Shown this once. It opens one seat on one device and dies at first use: send it to nobody else."
        >
          {(ids) => (
            <input
              {...ids}
              ref={field}
              readOnly
              value={link}
              className={`key ${fieldStyles.control}`}
              onFocus={(event) => event.target.select()}
            />
          )}
        </Field>
        <div className="tools">
          <Button aria-label={`Copy the link for ${label}`} onClick={() => void copy()}>
            Copy
          </Button>
          <p role="status" className="small">
            {copied === 'yes'
              ? 'Copied.'
              : copied === 'failed'
                ? 'This browser does not let a page copy. Select the link and copy it by hand.'
                : ''}
          </p>
        </div>
      </div>
    </div>
  );
}
