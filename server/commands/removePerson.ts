import { createHash } from 'node:crypto';
import { getEvaluationFacts } from '#db/queries/getEvaluationFacts';
import { listRemovedSeats } from '#db/queries/listRemovedSeats';
import { removeWords } from '#db/queries/removeWords';
import { rewordConfirmations } from '#db/queries/rewordConfirmations';
import { revokeSeatDevices } from '#db/queries/revokeSeatDevices';
import { DomainError } from '#lib/errors';
import type { Viewer } from '#lib/evaluation/facts';
import { pickOrderWording } from '#lib/evaluation/pickOrderWording';
import { withBindings } from '#lib/proof/recordKinds';
import { wordsBinding } from '../reveal/bindings';
import type { Runtime } from '../runtime';
import { actorOf } from './actorOf';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

type Asked = { readonly evaluationId: string; readonly viewer: Viewer; readonly seatId: string };

/**
 * Removes what names a person and what it wrote, at the word of its own seat or of the owner, between rounds. The record
 * knows seats by id, so it stands; it says that words were removed and binds what had words in it as it is from now on. What
 * the seat had committed to can no longer be made again, since its words are gone. Its sessions end with it. In an anonymous
 * panel notes stay as they were said, in the talk, on cards and on pictures: one that changed with this seat's name would name its author (BL9).
 */
export function removePerson(runtime: Runtime, { evaluationId, viewer, seatId }: Asked): void {
  const { db } = runtime;
  const ended = writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (!viewer.owner && viewer.seatId !== seatId) throw new DomainError('not-allowed');
    if (facts.round && facts.round.state !== 'revealed') throw new DomainError('still-open');
    if (listRemovedSeats(db, evaluationId).has(seatId)) throw new DomainError('in-use');
    const wording = pickOrderWording(facts);
    const newLabel = `removed ${seat.position + 1}`;
    const snapshots = removeWords(db, { seatId, evaluationId, label: seat.label, newLabel, notesStay: facts.plan.discussion === 'anonymous', at });
    rewordConfirmations(db, evaluationId, { from: wording, to: pickOrderWording(getEvaluationFacts(db, evaluationId)) });
    const hashes = snapshots.map((body) => createHash('sha256').update(JSON.stringify(body)).digest('hex'));
    note(actorOf(viewer), 'words-removed', withBindings([seatName(seatId), ...hashes].join(' '), wordsBinding(db, facts)));
    touchAll();
    return seat.owner ? [] : revokeSeatDevices(db, seatId, at);
  });
  for (const device of ended) runtime.hub.dismiss(device);
}
