'use client';

import { ageInDays } from '#lib/evaluation/ages';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { counted } from '../_parts/textWords';
import { Part } from './Part';
import { mediumOptions, quietTable, type SetupDraft } from './setupDraft';
import styles from './setup.module.css';
import type { SetupFaults } from './setupFaults';
import type { Change } from './useSetupDraft';

type DayPartProps = {
  readonly draft: SetupDraft;
  readonly faults: SetupFaults | null;
  readonly whelpedOn: string;
  readonly change: Change;
};

/** The day, the call, and the card that keeps the table quiet. */
export function DayPart({ draft: { input }, faults, whelpedOn, change }: DayPartProps) {
  const set = (part: Partial<SetupDraft['input']>) => change({ input: { ...input, ...part } });
  const age = input.heldOn === '' ? undefined : `${counted(ageInDays(whelpedOn, input.heldOn), 'day')} old`;
  return (
    <Part title="The day" note="What everyone invited sees, whatever their seat.">
      <div className={`stack gap-16 ${styles.pair}`}>
        <FieldText
          label="Name of the evaluation"
          value={input.name}
          maxLength={80}
          fault={faults?.name}
          onChange={(name) => set({ name })}
        />
        <FieldText
          label="Day"
          kind="date"
          value={input.heldOn}
          hint={age}
          fault={faults?.heldOn}
          onChange={(heldOn) => set({ heldOn })}
        />
        <FieldChoice
          label="Scored from"
          value={input.medium}
          options={mediumOptions}
          onChange={(medium) => set({ medium })}
        />
      </div>
      <div className={`stack gap-16 ${styles.pair}`}>
        <FieldText
          label="Link of the call"
          kind="url"
          hint="For those who dial in; leave blank if all are in the room."
          value={input.callLink}
          maxLength={300}
          fault={faults?.callLink}
          onChange={(callLink) => set({ callLink })}
        />
        <FieldText
          label="Number of the call"
          kind="tel"
          hint="The telephone number to dial instead."
          value={input.callNumber}
          maxLength={60}
          onChange={(callNumber) => set({ callNumber })}
        />
      </div>
      <FieldText
        label="Quiet-table card"
        kind="lines"
        hint={`Shown to every seat before scoring. The voice gives away more than the screen. ${input.tableNote.length} of 300 characters.`}
        value={input.tableNote}
        maxLength={300}
        onChange={(tableNote) => set({ tableNote })}
      />
      {input.tableNote === quietTable ? null : (
        <div>
          <button type="button" className={`bare ${styles.textButton}`} onClick={() => set({ tableNote: quietTable })}>
            Use the proposed words
          </button>
        </div>
      )}
      <QuietCard note={input.tableNote} callNumber={input.callNumber} />
    </Part>
  );
}

type QuietCardProps = { readonly note: string; readonly callNumber: string };

/** The quiet-table card on paper, to lie on the table: printing this page prints it and nothing else. */
function QuietCard({ note, callNumber }: QuietCardProps) {
  return (
    <>
      <div>
        <Button disabled={note.trim() === ''} onClick={() => window.print()}>
          Print the card
        </Button>
      </div>
      <div className={styles.printCard} aria-hidden="true">
        <p className={styles.printTitle}>Quiet table</p>
        <p>{note}</p>
        {callNumber === '' ? null : <p>Call: {callNumber}</p>}
      </div>
    </>
  );
}
