'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { Page } from '../_parts/Page';
import { CautionPart } from './CautionPart';
import { DayPart } from './DayPart';
import { OpenPart } from './OpenPart';
import { OrderPart } from './OrderPart';
import { PanelPart } from './PanelPart';
import { PickOrderPart } from './PickOrderPart';
import { PlanPart } from './PlanPart';
import { PurposePart } from './PurposePart';
import { SaveBar } from './SaveBar';
import type { SetupView } from './setupDraft';
import { anyFault, setupFaults } from './setupFaults';
import { SheetPart } from './SheetPart';
import { useSetupDraft } from './useSetupDraft';
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
  const chosen = useQuery({ ...trpc.sheet.get.queryOptions({ id: draft.sheetId }), enabled: draft.sheetId !== setup.sheetId });
  const sheet = draft.sheetId === setup.sheetId ? setup.sheet : chosen.data?.sheet;
  const faults = setupFaults(draft, sheet ?? setup.sheet, setup.whelpedOn);
  const shown = tried ? faults : null;
  const save = () => {
    setTried(true);
    if (!sheet || anyFault(faults)) return;
    send({ ...draft, purposes: draft.purposes.map(({ key, weights }) => ({ key, weights: fitWeights(weights, sheet) })) });
  };
  return (
    <Page>
      <DayPart draft={draft} faults={shown} whelpedOn={setup.whelpedOn} change={change} />
      <PlanPart draft={draft} seats={setup.seats} fault={shown?.plan ?? null} change={change} />
      <SheetPart owner={owner} draft={draft} sheet={sheet} error={chosen.error} change={change} />
      {sheet ? <PurposePart draft={draft} sheet={sheet} fault={shown?.purposes ?? null} change={change} /> : null}
      <PanelPart setup={setup} owner={owner} late={false} />
      <PickOrderPart draft={draft} setup={setup} faults={shown?.takers ?? []} change={change} />
      <OrderPart draft={draft} puppies={setup.puppies} change={change} />
      {owner ? <CautionPart read={read} onRead={setRead} /> : null}
      {owner ? <OpenPart setup={setup} unsaved={unsaved} read={read} /> : null}
      <SaveBar unsaved={unsaved} saving={saving} saved={saved} error={error} faulty={tried && anyFault(faults)} onSave={save} />
    </Page>
  );
}
