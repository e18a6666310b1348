'use client';

import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { EntryBody } from '#lib/contract/entry';
import type { EvaluationView, SeatFace } from '#lib/contract/evaluationView';
import { ownAnswers, saysSomething, type OwnAnswer } from '#lib/evaluation/ownAnswers';
import { waitingRows, type OwnRead } from '#lib/evaluation/outboxState';
import type { Outbox, OutboxView } from '../_data/outbox';
import { useTRPC } from '../_data/trpc';
import type { Link } from '../_data/useLive';
import { useOutbox } from '../_data/useOutbox';
import { useEvaluationHere } from '../_evaluation/evaluationContext';

export type RoundView = NonNullable<EvaluationView['round']>;

/** One seat at work in one open evaluation: what it has said, what it may say, and where that is. */
export type Scoring = {
  readonly evaluation: EvaluationView;
  readonly round: RoundView;
  readonly seat: SeatFace;
  readonly link: Link;
  readonly outbox: Outbox;
  readonly view: OutboxView;
  readonly answers: ReadonlyMap<string, OwnAnswer>;
  /** Answers that say something and that the server has acknowledged. */
  readonly onServer: number;
  readonly waiting: number;
  /** Of those, answers that the server had acknowledged and no longer has. */
  readonly again: number;
  /** Answers that the last read lacked though they were acknowledged: asked about again. */
  readonly doubted: number;
  /** Answers that say something, wherever they are. */
  readonly said: number;
  /** True when everything needed to number an edit is known. */
  readonly ready: boolean;
  readonly failure: unknown;
  /** True while an entry still counts: round open, card not locked. */
  readonly open: boolean;
  /** When the evaluation was last read from the server. */
  readonly readAt: number;
  readonly say: (subject: string, body: EntryBody) => void;
};

type Place = { readonly round: RoundView; readonly seat: SeatFace };

const nothing: never[] = [];

export function useScoring({ round, seat }: Place): Scoring {
  const { evaluation, link, readAt } = useEvaluationHere();
  const trpc = useTRPC();
  const mine = useQuery(trpc.card.mine.queryOptions({ id: evaluation.id }));
  const open = round.state === 'open' && seat.state !== 'locked';
  const stage = round.state === 'revealed' ? 'revealed' : open ? 'open' : 'shut';
  const later = round.occasion === 'second';
  const read = useMemo<OwnRead | undefined>(
    () =>
      mine.data?.roundId === round.id
        ? { roundId: round.id, answers: mine.data.answers, at: mine.dataUpdatedAt, round: stage, later }
        : undefined,
    [mine.data, mine.dataUpdatedAt, round.id, stage, later],
  );
  const { outbox, view } = useOutbox({ evaluationId: evaluation.id, seatId: seat.id, link, read });
  const answers = useMemo(
    () => ownAnswers(read?.answers ?? nothing, view.state, round.id),
    [read, view.state, round.id],
  );
  const said = useMemo(() => [...answers.values()].filter((answer) => saysSomething(answer.body)), [answers]);
  return {
    evaluation,
    round,
    seat,
    link,
    readAt,
    outbox,
    view,
    answers,
    onServer: said.filter((answer) => answer.place === 'server').length,
    waiting: waitingRows(view.state).length,
    again: waitingRows(view.state).filter((row) => row.again === true).length,
    doubted: view.state.held.filter((row) => view.state.doubted.includes(row.entry.id)).length,
    said: said.length,
    ready: read !== undefined && view.loaded,
    failure: mine.error,
    open,
    say: (subject, body) => void outbox.add({ subject, body, roundId: round.id }),
  };
}
