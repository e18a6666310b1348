import type { Entry, EntryOutcome } from '#lib/contract/entry';
import { systemRandom } from '#server/random';
import type { Day, DayDevice } from './makeDay';
import { testClient, type TestClient } from './testClient';

export type ScoreSender = {
  readonly client: TestClient;
  /** Sends the next score in one call; rejects when the call fails. */
  send(): Promise<{ readonly entry: Entry; readonly outcome: EntryOutcome }>;
};

/** One device that scores over real HTTP, each score on a register in turn. */
export function scoreSender(url: string, day: Day, device: DayDevice): ScoreSender {
  const client = testClient(url, `evenstack=${device.secret}`);
  const criteria = day.facts.sheet.criteria.filter((one) => !one.twoSided);
  const showings = day.facts.round?.showings ?? [];
  let sent = 0;
  return {
    client,
    send: async () => {
      sent += 1;
      const entry: Entry = {
        id: systemRandom.id(),
        subject: showings[sent % showings.length]?.id ?? '',
        counter: Date.now() % 1_000_000_000,
        madeAt: Date.now(),
        body: { kind: 'score', criterion: criteria[sent % criteria.length]?.key ?? '', cannotJudge: false, value: 1 + (sent % 7) },
      };
      const [outcome] = await client.api.card.submit.mutate({ id: day.facts.id, entries: [entry] });
      if (!outcome) throw new Error('a call was answered without an outcome');
      return { entry, outcome };
    },
  };
}
