import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { inTransaction } from '#db/inTransaction';
import { open } from '#db/open';
import { getEvaluationFacts } from '#db/queries/getEvaluationFacts';
import { insertDevice } from '#db/queries/insertDevice';
import { listEvaluations } from '#db/queries/listEvaluations';
import type { DemoRole } from '#lib/contract/demoView';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import { invariant } from '#lib/invariant';
import { confirmPickOrder } from '../commands/confirmPickOrder';
import { openRound } from '../commands/openRound';
import { savePanelSeat } from '../commands/savePanelSeat';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';
import { hangPictures } from './hangPictures';
import type { Scenario } from './scenario';
import { writeVisitor, type Visitor } from './visitorFile';

export const copyFile = (folder: string): string => join(folder, 'evenstack.db');

export type CopyPlan = {
  readonly folder: string;
  readonly id: string;
  readonly role: DemoRole;
  readonly scenario: Scenario;
  readonly template: Buffer;
  /** Where the drawn pictures of the scenario lie. */
  readonly pictures: string;
  /** Everything a copy's runtime has besides its data. */
  readonly around: Omit<Runtime, 'db' | 'demo'>;
};

/** A fresh copy in its own folder: the other seats marked as scripted, the round opened, everyone's session made. */
export function makeCopy(plan: CopyPlan): Visitor {
  const { folder, template, around } = plan;
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  writeFileSync(copyFile(folder), template, { mode: 0o600 });
  const db = open(copyFile(folder));
  try {
    const visitor = inTransaction(db, () => furnish({ ...around, db, demo: null }, plan));
    writeVisitor(folder, visitor);
    return visitor;
  } finally {
    db.$client.close();
  }
}

function furnish(runtime: Runtime, { id, role, scenario, pictures }: CopyPlan): Visitor {
  const sealed = evaluationNamed(runtime, scenario.sealed.name);
  const prepared = evaluationNamed(runtime, scenario.open.name);
  for (const seat of prepared.seats.filter((one) => one.label !== role)) markScripted(runtime, prepared.id, seat);
  // A seat marked as scripted is worded otherwise in the pick order, which its parties then agree to anew.
  for (const { role: party, picks } of scenario.seats) {
    if (picks && party !== 'breeder') confirmPickOrder(runtime, { evaluationId: prepared.id, seatId: seatOf(prepared, party).id });
  }
  openRound(runtime, { evaluationId: prepared.id, unconfirmed: false });
  hangPictures(runtime, { folder: pictures, evaluations: [sealed, prepared] });
  const own = seatOf(prepared, role);
  const session = newSession(runtime, own);
  const cast = scenario.seats
    .filter((seat) => seat.role !== role)
    .map((seat) => ({ role: seat.role, secret: newSession(runtime, seatOf(prepared, seat.role)) }));
  const past = seatOf(sealed, role);
  return {
    id,
    role,
    enteredAt: runtime.clock.now(),
    // One cookie is one seat; the owner's reaches every evaluation.
    sealed: { id: sealed.id, seat: past.id, secret: past.owner ? session : newSession(runtime, past) },
    open: { id: prepared.id, seat: own.id, secret: session },
    cast,
  };
}

function evaluationNamed({ db }: Runtime, name: string): EvaluationFacts {
  const line = listEvaluations(db).find((one) => one.name === name);
  invariant(line, `the demo's template has no evaluation ${name}`);
  return getEvaluationFacts(db, line.id);
}

/** In the template every seat is labelled by its role. */
function seatOf(facts: EvaluationFacts, role: DemoRole): SeatFacts {
  const seat = facts.seats.find((one) => one.label === role);
  invariant(seat, `the demo's template has no ${role}`);
  return seat;
}

function markScripted(runtime: Runtime, evaluationId: string, { id, label, kind, leads, picks, interest }: SeatFacts): void {
  savePanelSeat(runtime, { evaluationId, seatId: id, input: { label: `${label} (scripted)`, kind, leads, picks, interest } });
}

function newSession({ db, random, clock }: Runtime, seat: SeatFacts): string {
  const secret = random.token();
  const holder = seat.owner ? { owner: true, seatId: null } : { owner: false, seatId: seat.id };
  insertDevice(db, { ...holder, id: random.id(), tokenHash: hashToken(secret), createdAt: clock.now() });
  return secret;
}
