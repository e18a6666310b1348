'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CautionKey } from '#lib/sheet/cautions';
import type { Sheet } from '#lib/sheet/sheet';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_data/refusalText';
import { counted } from '../_parts/textWords';
import { DayPart } from './DayPart';
import { OpenPart } from './OpenPart';
import { OrderPart } from './OrderPart';
import { PanelPart } from './PanelPart';
import { Part } from './Part';
import { PickOrderPart } from './PickOrderPart';
import { PlanPart } from './PlanPart';
import { PurposePart } from './PurposePart';
import styles from './setup.module.css';
import type { SetupDraft, SetupView } from './setupDraft';
import { anyFault, setupFaults } from './setupFaults';
import { type Change, useSetupDraft } from './useSetupDraft';
import { fitWeights } from './weights';

type SetupDeskProps = {
  readonly setup: SetupView;
  /** False for an organiser, who prepares and leaves the opening to the owner. */
  readonly owner: boolean;
};

/** Everything that is agreed before anyone scores. Seats are kept one by one, the rest in one go. */
export function SetupDesk({ setup, owner }: SetupDeskProps) {
  const { draft, unsaved, change, send, saving, error, saved } = useSetupDraft(setup);
  const [tried, setTried] = useState(false);
  const [read, setRead] = useState(false);
  const trpc = useTRPC();
  const chosen = useQuery({
    ...trpc.sheet.get.queryOptions({ id: draft.sheetId }),
    enabled: draft.sheetId !== setup.sheetId,
  });
  const sheet = draft.sheetId === setup.sheetId ? setup.sheet : chosen.data?.sheet;
  const faults = setupFaults(draft, sheet ?? setup.sheet, setup.whelpedOn);
  const shown = tried ? faults : null;
  const save = () => {
    setTried(true);
    if (!sheet || anyFault(faults)) return;
    send({
      ...draft,
      purposes: draft.purposes.map(({ key, weights }) => ({ key, weights: fitWeights(weights, sheet) })),
    });
  };
  return (
    <>
      <DayPart draft={draft} faults={shown} whelpedOn={setup.whelpedOn} change={change} />
      <PlanPart draft={draft} seats={setup.seats} fault={shown?.plan ?? null} change={change} />
      <SheetPart owner={owner} draft={draft} sheet={sheet} error={chosen.error} change={change} />
      {sheet ? <PurposePart draft={draft} sheet={sheet} fault={shown?.purposes ?? null} change={change} /> : null}
      <PanelPart setup={setup} owner={owner} late={false} />
      <PickOrderPart draft={draft} setup={setup} faults={shown?.takers ?? []} change={change} />
      <OrderPart draft={draft} puppies={setup.puppies} change={change} />
      {owner ? <CautionPart read={read} onRead={setRead} /> : null}
      {owner ? <OpenPart setup={setup} unsaved={unsaved} read={read} /> : null}
      <SaveBar
        unsaved={unsaved}
        saving={saving}
        saved={saved}
        error={error}
        faulty={tried && anyFault(faults)}
        onSave={save}
      />
    </>
  );
}

const beforeTheDay: readonly CautionKey[] = [
  'handling',
  'hygiene',
  'warmth-and-rest',
  'fear',
  'not-veterinary',
  'hereditary',
  'extremes',
  'early-days',
  'local-law',
  'privacy',
];

type CautionPartProps = { readonly read: boolean; readonly onRead: (read: boolean) => void };

function CautionPart({ read, onRead }: CautionPartProps) {
  return (
    <Part title="Before the day" note="Read these, and tell whoever handles a puppy.">
      <div className={`stack gap-12 ${styles.cautions}`}>
        {beforeTheDay.map((caution) => (
          <CautionNote key={caution} caution={caution} />
        ))}
      </div>
      <FieldTick label="I have read these and told whoever handles a puppy." ticked={read} onChange={onRead} />
    </Part>
  );
}

type SaveBarProps = {
  readonly unsaved: boolean;
  readonly saving: boolean;
  readonly saved: boolean;
  readonly faulty: boolean;
  readonly error: unknown;
  readonly onSave: () => void;
};

const fieldWords: Readonly<Record<string, string>> = {
  slots: 'A place in the pick order names a seat that may not pick. Choose another seat there, or let that seat pick.',
  purposes:
    'The purposes do not fit: each needs a weight on at least one criterion, and every place in the pick order needs a purpose that is chosen.',
  plan: 'A lesson needs the seat that learns, and that seat has to score.',
  order: 'The litter has changed meanwhile. Your order of showing does not name its puppies.',
};

/** Stays in sight: whether what is typed is on the server, and the way to get it there. */
function SaveBar({ unsaved, saving, saved, faulty, error, onSave }: SaveBarProps) {
  const field = refusalDetails(error)?.details.field;
  return (
    <div className={`stack gap-8 ${styles.saveBar}`}>
      <Refusal error={error} words={typeof field === 'string' ? (fieldWords[field] ?? null) : null} />
      <div className={`wrap centred between ${styles.saveLine}`}>
        <p role="status">
          {faulty ? 'Something above needs a second look first. ' : ''}
          {unsaved ? 'Not saved yet.' : saved ? 'Saved.' : 'Nothing changed.'}
        </p>
        <Button tone="main" busy={saving} disabled={!unsaved} onClick={onSave}>
          Save the set-up
        </Button>
      </div>
    </div>
  );
}

type SheetPartProps = {
  readonly owner: boolean;
  readonly draft: SetupDraft;
  readonly sheet: Sheet | undefined;
  readonly error: unknown;
  readonly change: Change;
};

/** Which sheet is scored. It is copied into the round when that opens. */
function SheetPart({ owner, draft, sheet, error, change }: SheetPartProps) {
  const trpc = useTRPC();
  const sheets = useQuery({ ...trpc.sheet.list.queryOptions(), enabled: owner });
  const options = (sheets.data ?? []).map((one) => ({
    key: one.id,
    words: one.builtIn ? one.name : `${one.name} (your own)`,
  }));
  const hands = sheet?.criteria.filter((criterion) => criterion.handsOnly).length ?? 0;
  return (
    <Part
      title="Sheet"
      note="More evaluators help more than more criteria: the short sheet is enough for a tired litter."
    >
      <div className={`stack gap-16 ${styles.pair}`}>
        {owner ? (
          <FieldChoice
            label="Sheet"
            value={draft.sheetId}
            options={options}
            onChange={(sheetId) => change({ sheetId })}
          />
        ) : (
          <p>{sheet?.name ?? ''}, chosen by the owner.</p>
        )}
        <div className={`stack gap-4 ${styles.beside}`}>
          {sheet ? (
            <p className="small figures">
              {counted(sheet.criteria.length, 'criterion', 'criteria')}, scores {sheet.scale.low} to {sheet.scale.high}
              {hands > 0 ? `, ${hands} by hand only` : ''}; {counted(sheet.checks.length, 'check')}
            </p>
          ) : null}
          {owner ? (
            <p>
              <a href={`/sheet?id=${draft.sheetId}`} target="_blank" rel="noreferrer">
                Read the sheet, or make it your own (in a new tab)
              </a>
            </p>
          ) : null}
        </div>
      </div>
      <Refusal error={sheets.error ?? error} />
    </Part>
  );
}
