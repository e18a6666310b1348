'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { EvaluationPhase } from '#lib/evaluation/phase';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Confirm } from '../_parts/Confirm';
import { Disclosure } from '../_parts/Disclosure';
import { Refusal } from '../_parts/Refusal';
import { SeatShape } from '../_parts/SeatShape';
import { refusalDetails } from '../_data/refusalText';
import { seatKindWords } from '../_parts/textWords';
import { SeatCode } from './SeatCode';
import { SeatForm } from './SeatForm';
import { SeatLink } from './SeatLink';
import styles from './setup.module.css';
import type { SetupView } from './setupDraft';

type Seat = SetupView['seats'][number];

type SeatLineProps = {
  readonly evaluationId: string;
  readonly seat: Seat;
  readonly phase: EvaluationPhase;
  readonly fixed: boolean;
  /** The owner ends sessions, issues again and gives rights; an organiser does not. */
  readonly owner: boolean;
  readonly address: string | null;
};

/** One seat: what it is, where it stands, and what can be done with it. */
export function SeatLine({ evaluationId, seat, phase, fixed, owner, address }: SeatLineProps) {
  const [changing, setChanging] = useState(false);
  if (changing) {
    return (
      <li className="sheet stack inset gap-8">
        <SeatForm rights={owner} evaluationId={evaluationId} seat={seat} onClose={() => setChanging(false)} />
      </li>
    );
  }
  return (
    <li className="sheet stack inset gap-8" aria-label={seat.label}>
      <div className={`wrap ${styles.seatHead}`}>
        <SeatShape position={seat.position} size={22} />
        <div className={`wrap grows ${styles.who}`}>
          <h3>{seat.label}</h3>
          <p className="small">{seatWords(seat)}</p>
        </div>
        <p className="strong">
          {seat.owner && !owner && seat.state !== 'locked' ? 'the owner’s own' : stateWords(seat, phase)}
        </p>
      </div>
      <div className="tools unless-empty">
        {seat.owner || seat.paper || phase === 'sealed' ? null : (
          <SeatLink owner={owner} evaluationId={evaluationId} seat={seat} phase={phase} address={address} />
        )}
        {fixed || (!owner && (seat.owner || seat.organises)) ? null : (
          <SeatTools evaluationId={evaluationId} seat={seat} onChange={() => setChanging(true)} />
        )}
      </div>
      <SeatMore evaluationId={evaluationId} seat={seat} phase={phase} owner={owner} />
    </li>
  );
}

function seatWords({ kind, leads, picks, organises, reads, interest }: Seat): string {
  const parts = [
    seatKindWords[kind],
    leads ? 'leads the table' : '',
    picks ? 'may pick' : '',
    organises ? 'organises' : '',
    reads ? 'reads the result' : '',
    interest === '' ? '' : `declared interest: ${interest}`,
  ];
  return parts.filter((part) => part !== '').join(' · ');
}

function stateWords({ owner, state, linkWaiting, paper }: Seat, phase: EvaluationPhase): string {
  if (state === 'locked') return 'has locked';
  if (owner) return 'you, from this browser';
  if (paper) return 'answers on paper';
  if (state === 'joined') return phase === 'scoring' ? 'joined, not locked yet' : 'joined';
  return linkWaiting ? 'link made, not opened yet' : 'no link yet';
}

type SeatToolsProps = { readonly evaluationId: string; readonly seat: Seat; readonly onChange: () => void };

function SeatTools({ evaluationId, seat, onChange }: SeatToolsProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const remove = useMutation(trpc.setup.removeSeat.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const inUse = refusalDetails(remove.error)?.code === 'in-use';
  return (
    <>
      <span>
        <Button tone="quiet" aria-label={`Change the seat of ${seat.label}`} onClick={onChange}>
          Change
        </Button>
        {seat.owner || seat.state !== 'invited' ? null : (
          <Button
            tone="quiet"
            busy={remove.isPending}
            aria-label={`Remove the seat of ${seat.label}`}
            onClick={() => remove.mutate({ id: evaluationId, seatId: seat.id })}
          >
            Remove
          </Button>
        )}
      </span>
      <Refusal
        error={remove.error}
        words={
          inUse
            ? 'Someone has joined by this seat, or a place in the saved pick order names it. Change that first.'
            : null
        }
      />
    </>
  );
}

type SeatMoreProps = {
  readonly evaluationId: string;
  readonly seat: SetupView['seats'][number];
  readonly phase: EvaluationPhase;
  /** False for an organiser, who ends and removes nothing. */
  readonly owner: boolean;
};

/** What is seldom needed of a seat that is held, behind one press. */
function SeatMore({ evaluationId, seat, phase, owner }: SeatMoreProps) {
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

type SeatEndProps = { readonly ids: { readonly id: string; readonly seatId: string }; readonly label: string };

/** Signs a seat out on every device of its. */
function SeatEnd({ ids, label }: SeatEndProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const end = useMutation(trpc.setup.endSeat.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  return (
    <>
      <Confirm
        tone="quiet"
        words="End its sessions"
        about={label}
        doIt="Sign this seat out"
        busy={end.isPending}
        onConfirm={() => end.mutate(ids)}
      >
        <p>
          Every device of this seat is signed out at once. What it entered stays. To come back, the seat has to be
          issued again.
        </p>
      </Confirm>
      <Refusal error={end.error} />
    </>
  );
}

type SeatRemovalProps = { readonly evaluationId: string; readonly seat: SetupView['seats'][number] };

/** For a person who wants her words gone and does not, or cannot, do it from her own device. */
function SeatRemoval({ evaluationId, seat }: SeatRemovalProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const remove = useMutation(trpc.person.remove.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const done = refusalDetails(remove.error)?.code === 'in-use';
  if (seat.state === 'invited') return null;
  return (
    <>
      <Confirm
        tone="quiet"
        words="Remove this person’s words"
        about={seat.label}
        doIt="Remove them for good"
        busy={remove.isPending}
        onConfirm={() => remove.mutate({ id: evaluationId, seatId: seat.id })}
      >
        <p>
          The seat’s name, interest, notes and reasons are overwritten and its sessions end. Scores stay, under
          “removed”, and the record says so. What the seat had committed to can then no longer be checked. In an
          anonymous panel notes stay as they are, since one that changed would tell whose it was. Backups made before
          keep the words. This cannot be taken back.
        </p>
      </Confirm>
      <Refusal error={remove.error} words={done ? 'The words of this seat have been removed already.' : null} />
    </>
  );
}
