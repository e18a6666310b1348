import type { EntryBody } from '#lib/contract/entry';
import type { PaperSeat } from '#lib/contract/paper';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import type { Quillmarsh } from './seedQuillmarsh';
import type { TestClient } from './testClient';

/** Adds a seat on paper to an evaluation in preparation; answers its id. */
export async function addPaperSeat({ id, owner }: Pick<Quillmarsh, 'id' | 'owner'>): Promise<string> {
  const { id: seatId } = await owner.api.setup.saveSeat.mutate({
    id,
    seatId: null,
    seat: { label: 'neighbour', kind: 'hands', leads: false, picks: false, interest: '', paper: true },
  });
  return seatId;
}

export async function paperSeatOf(owner: TestClient, id: string, seatId: string): Promise<PaperSeat> {
  const seat = (await owner.api.paper.list.query({ id })).seats.find((one) => one.id === seatId);
  if (!seat) throw new Error('there are no sheets of this seat');
  return seat;
}

/** A filled sheet: every score the same step, every check normal, and a word. */
export async function filledSheet(
  owner: TestClient,
  id: string,
  { score, word }: { readonly score: number; readonly word: string },
): Promise<EntryBody[]> {
  const { sheet } = await owner.api.evaluation.get.query({ id });
  const checks = sheet.checks
    .filter((key) => key !== 'testicles')
    .flatMap((key): EntryBody[] => {
      const normal = checkByKey(key)?.answers.find((answer) => answer.outcome === 'normal');
      return normal ? [{ kind: 'check', check: key, answer: normal.key, detail: '' }] : [];
    });
  return [
    ...sheet.criteria.map(
      ({ key, twoSided }): EntryBody => ({
        kind: 'score',
        criterion: key,
        value: twoSided ? score - 4 : score,
        cannotJudge: false,
      }),
    ),
    ...checks,
    { kind: 'overall', value: score, cannotJudge: false },
    { kind: 'note', criterion: null, text: word },
  ];
}
