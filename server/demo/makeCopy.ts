import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { open } from '#db/open';
import { picturesFolder } from '#db/picturesFolder';
import { insertDevice } from '#db/queries/devices';
import { getEvaluationFacts, listEvaluations } from '#db/queries/evaluations';
import { insertPhoto } from '#db/queries/photos';
import { inTransaction } from '#db/transaction';
import type { DemoRole } from '#lib/contract/demoView';
import { shotSchema } from '#lib/contract/photo';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import { invariant } from '#lib/invariant';
import { openRound } from '../commands/rounds';
import { confirmPickOrder, savePanelSeat } from '../commands/seats';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';
import { handOf } from './prepareDay';
import type { Scenario } from './scenario';
import { type Visitor, writeVisitor } from './visitorFile';

export const copyFile = (folder: string): string => join(folder, 'evenstack.db');

type CopyPlan = {
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
    if (picks && party !== 'breeder') confirmPickOrder(handOf(runtime, seatOf(prepared, party)), prepared.id);
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

function markScripted(
  runtime: Runtime,
  evaluationId: string,
  { id, label, kind, leads, picks, interest }: SeatFacts,
): void {
  savePanelSeat(handOf(runtime), {
    evaluationId,
    seatId: id,
    input: { label: `${label} (scripted)`, kind, leads, picks, interest },
  });
}

function newSession({ db, random, clock }: Runtime, seat: SeatFacts): string {
  const secret = random.token();
  const holder = seat.owner ? { owner: true, seatId: null } : { owner: false, seatId: seat.id };
  insertDevice(db, { ...holder, id: random.id(), tokenHash: hashToken(secret), createdAt: clock.now() });
  return secret;
}

const pictureSchema = z.strictObject({
  puppy: z.string(),
  view: shotSchema,
  file: z.string().regex(/^[a-z-]+\.webp$/),
  width: z.int(),
  height: z.int(),
  hash: z.string(),
  placeholder: z.string(),
});

type Hanging = { readonly folder: string; readonly evaluations: readonly EvaluationFacts[] };

/** Puts the drawn pictures of the invented litter into a copy: one of each view, by the photographer, under names of their own. */
function hangPictures({ db, random }: Runtime, { folder, evaluations }: Hanging): void {
  const place = picturesFolder(db);
  mkdirSync(place, { recursive: true, mode: 0o700 });
  const pictures = z.array(pictureSchema).parse(JSON.parse(readFileSync(join(folder, 'pictures.json'), 'utf8')));
  for (const { puppy: name, view, file, ...facts } of pictures) {
    const own = random.id();
    writeFileSync(join(place, own), readFileSync(join(folder, file)), { mode: 0o600 });
    for (const evaluation of evaluations) {
      const puppy = evaluation.puppies.find((one) => one.name === name);
      if (!puppy) continue;
      const at = Date.parse(evaluation.heldOn);
      const seatId = evaluation.seats.find((seat) => seat.kind === 'photographs')?.id ?? null;
      const kept = {
        kind: 'picture',
        contentType: 'image/webp',
        takenAt: at,
        receivedAt: at,
        fair: 1,
        keeper: 1,
      } as const;
      insertPhoto(db, {
        ...facts,
        ...kept,
        id: random.id(),
        evaluationId: evaluation.id,
        puppyId: puppy.id,
        view,
        seatId,
        file: own,
        thumb: own,
      });
    }
  }
}
