import { openReadOnly } from '#db/open';
import { listCommitments } from '#db/queries/commitments';
import { listDecisions } from '#db/queries/decisions';
import { getEvaluationFacts, listEvaluations } from '#db/queries/evaluations';
import { listLooks } from '#db/queries/looks';
import { findRecordHead, listRecord } from '#db/queries/record';
import { getShotList, listPhotos } from '#db/queries/photos';
import { photoMarkRows } from '#db/queries/photoMarks';
import { evaluationView } from '#lib/blind/evaluationView';
import { evaluationViewSchema } from '#lib/contract/evaluationView';
import { readSnapshot } from '../reveal/results';
import { verifyData } from '../reveal/verifyData';

/** What is wrong with a data file that was made of a file somebody brought: first what `verify` finds, then what no page could show. */
export function examineFile(file: string): readonly string[] {
  try {
    const { faults, unbound, untold } = verifyData(file);
    if (faults.length > 0) return faults.map(({ words }) => words);
    return unbound + untold > 0 ? ['its record does not bind all of it'] : unreadable(file);
  } catch {
    return [cannotBeRead];
  }
}

/** Whatever it is, a page would meet it again each time. */
const cannotBeRead = 'something in it cannot be read';

/** A line of the record binds a row's words, not that they are words this app can read. */
function unreadable(file: string): readonly string[] {
  const db = openReadOnly(file);
  try {
    for (const { id } of listEvaluations(db)) {
      const facts = getEvaluationFacts(db, id);
      readSnapshot({ db }, facts);
      const owner = { owner: true, seatId: null, leads: true };
      const beside = {
        versions: { all: 0, own: 0 },
        head: findRecordHead(db),
        commitments: facts.round ? listCommitments(db, facts.round.id) : [],
      };
      evaluationViewSchema.parse(evaluationView(facts, owner, beside));
      listDecisions(db, id);
      listLooks(db, id);
      listRecord(db, id);
      listPhotos(db, id);
      getShotList(db, id);
      photoMarkRows(db, { evaluationId: id, pointers: undefined, measurements: undefined, takenBack: undefined });
    }
    return [];
  } finally {
    db.$client.close();
  }
}
