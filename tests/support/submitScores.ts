import type { Entry, EntryOutcome } from '#lib/contract/entry';
import { systemRandom } from '#server/random';
import type { Day, DayDevice } from './makeDay';
import { testClient, type TestClient } from './testClient';

type Sent = { readonly entry: Entry; readonly outcome: EntryOutcome };

export type ScoreSender = {
  readonly client: TestClient;
  /** Sends the next score in one call; rejects when the call fails. */
  send(): Promise<Sent>;
  /** So many scores in one call, as a device sends what has gathered while its last call was out. */
  sendTogether(many: number): Promise<readonly Sent[]>;
};

/** One device that scores over real HTTP, each score on a register in turn. */
export function scoreSender(url: string, day: Day, device: DayDevice): ScoreSender {
  const client = testClient(url, `evenstack=${device.secret}`);
  const criteria = day.facts.sheet.criteria.filter((one) => !one.twoSided);
  const showings = day.facts.round?.showings ?? [];
  let sent = 0;
  const nextEntry = (): Entry => {
    sent += 1;
    const body = {
      kind: 'score',
      criterion: criteria[sent % criteria.length]?.key ?? '',
      cannotJudge: false,
      value: 1 + (sent % 7),
    } as const;
    return {
      id: systemRandom.id(),
      subject: showings[sent % showings.length]?.id ?? '',
      counter: Date.now() % 1_000_000_000,
      madeAt: Date.now(),
      body,
    };
  };
  const sendTogether = async (many: number): Promise<readonly Sent[]> => {
    const entries = Array.from({ length: many }, nextEntry);
    const outcomes = await client.api.card.submit.mutate({ id: day.facts.id, entries });
    return entries.map((entry) => {
      const outcome = outcomes.find((one) => one.id === entry.id);
      if (!outcome) throw new Error('a call was answered without an outcome');
      return { entry, outcome };
    });
  };
  return {
    client,
    sendTogether,
    send: async () => {
      const [one] = await sendTogether(1);
      if (!one) throw new Error('nothing was sent');
      return one;
    },
  };
}
