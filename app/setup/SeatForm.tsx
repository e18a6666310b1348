'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { SeatInput } from '#lib/contract/setup';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_data/refusalText';
import { seatKindWords } from '../_parts/textWords';
import { useFocusFirst } from '../_parts/useFocusFirst';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import styles from './setup.module.css';
import type { SetupView } from './setupDraft';

type SeatFormProps = {
  readonly evaluationId: string;
  /** Whether the rights may be given: by the owner. */
  readonly rights: boolean;
  /** Null for a new one. */
  readonly seat: SetupView['seats'][number] | null;
  readonly onClose: () => void;
};

type RightsProps = { readonly draft: SeatInput; readonly set: (part: Partial<SeatInput>) => void };

/** What a seat may do beside scoring. Organising and reading are for those who do not score. */
function SeatRights({ draft, set }: RightsProps) {
  return (
    <>
      <FieldTick
        label="May pick"
        hint="May take a place in the pick order."
        ticked={draft.picks}
        onChange={(picks) => set({ picks })}
      />
      {draft.kind === 'none' ? (
        <>
          <FieldTick
            label="Organises"
            hint="May prepare this set-up and lead the table. Cannot open, reveal or decide."
            ticked={draft.organises === true}
            onChange={(organises) => set({ organises })}
          />
          <FieldTick
            label="Reads the result"
            hint="May read the board once it is revealed."
            ticked={draft.reads === true}
            onChange={(reads) => set({ reads })}
          />
        </>
      ) : null}
    </>
  );
}

/** One that scores, that nobody has joined, and that is not the owner's own. */
function mayBePaper(seat: SeatFormProps['seat'], { kind, leads }: SeatInput): boolean {
  return kind !== 'none' && !leads && (seat === null || (!seat.owner && seat.state === 'invited'));
}

const kinds = (['hands', 'live', 'photographs', 'none'] as const).map((key) => ({ key, words: seatKindWords[key] }));

/** One seat; saved at once, apart from the rest of the set-up. */
export function SeatForm({ evaluationId, rights, seat, onClose }: SeatFormProps) {
  const [start] = useState<SeatInput>(() => ({
    label: seat?.label ?? '',
    kind: seat?.kind ?? 'live',
    leads: seat?.leads ?? false,
    picks: seat?.picks ?? false,
    organises: seat?.organises ?? false,
    reads: seat?.reads ?? false,
    paper: seat?.paper ?? false,
    interest: seat?.interest ?? '',
  }));
  const [draft, setDraft] = useState(start);
  const [tried, setTried] = useState(false);
  const form = useFocusFirst();
  const queries = useQueryClient();
  const trpc = useTRPC();
  const save = useMutation(
    trpc.setup.saveSeat.mutationOptions({
      onSuccess: async () => {
        await queries.invalidateQueries();
        onClose();
      },
    }),
  );
  useUnsavedGuard(!save.isSuccess && JSON.stringify(draft) !== JSON.stringify(start));
  const set = (part: Partial<SeatInput>) => setDraft((before) => ({ ...before, ...part }));
  const taken = refusalDetails(save.error)?.details.field === 'label';
  const blank = draft.label.trim() === '' ? 'Name the seat by its role.' : null;
  return (
    <form
      ref={form}
      className={`stack gap-12 ${styles.seatForm}`}
      noValidate
      aria-label={seat ? `Change the seat of ${seat.label}` : 'New seat'}
      onSubmit={(event) => {
        event.preventDefault();
        setTried(true);
        if (blank === null) save.mutate({ id: evaluationId, seatId: seat?.id ?? null, seat: draft });
      }}
    >
      <SeatFields draft={draft} fault={tried ? blank : null} set={set} />
      {rights ? <SeatRights draft={draft} set={set} /> : null}
      {rights && mayBePaper(seat, draft) ? (
        <FieldTick
          label="Answers on paper"
          hint="Has no device. You print its sheets and type them in, once your own card is locked; you see them then, and the result says so."
          ticked={draft.paper === true}
          onChange={(paper) => set({ paper })}
        />
      ) : null}
      <FieldText
        label="Declared interest"
        hint="“has second pick”, “owns the sire”; blank for none."
        value={draft.interest}
        maxLength={120}
        onChange={(interest) => set({ interest })}
      />
      <Refusal
        error={save.error}
        words={taken ? 'Another seat has that name, or the panel is full. Give this one a name of its own.' : null}
      />
      <div className="tools">
        <Button type="submit" tone="main" busy={save.isPending}>
          Save seat
        </Button>
        <Button onClick={onClose}>{seat ? 'Leave it as it was' : 'Leave'}</Button>
      </div>
    </form>
  );
}

type SeatFieldsProps = {
  readonly draft: SeatInput;
  readonly fault: string | null;
  readonly set: (part: Partial<SeatInput>) => void;
};

/** What every seat is asked: its role, how it sees the puppies, whether it leads. */
function SeatFields({ draft, fault, set }: SeatFieldsProps) {
  return (
    <>
      <div className={`stack gap-16 ${styles.pair}`}>
        <FieldText
          label="Seat"
          hint="By role: mentor, photographer, co-owner."
          value={draft.label}
          maxLength={40}
          fault={fault}
          onChange={(label) => set({ label })}
        />
        <FieldChoice
          label="Sees and touches"
          hint="Hands-only criteria are offered to hands-on seats alone."
          value={draft.kind}
          options={kinds}
          onChange={(kind) => set(kind === 'none' ? { kind, paper: false } : { kind, organises: false, reads: false })}
        />
      </div>
      <FieldTick
        label="Leads the table"
        hint="May say which puppy is up."
        ticked={draft.leads}
        onChange={(leads) => set(leads ? { leads, paper: false } : { leads })}
      />
    </>
  );
}
