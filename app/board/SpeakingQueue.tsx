'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_parts/refusalDetails';
import { SeatShape } from '../_parts/SeatShape';
import styles from './DiscussionSection.module.css';
import type { Faces } from './facesOf';

type QueueProps = { readonly evaluation: EvaluationView; readonly faces: Faces; readonly mayAsk: boolean };

/** Who asks to speak, the longest waiting first; whoever leads takes a hand down when its seat has spoken. */
export function SpeakingQueue({ evaluation, faces, mayAsk }: QueueProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const { data, error } = useQuery(trpc.board.hands.queryOptions({ id: evaluation.id }));
  const ask = useMutation(trpc.board.askToSpeak.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const { viewer } = evaluation;
  if (!data) return <Refusal error={error} />;
  const hands = data.waiting;
  const put = (seatId: string, up: boolean) => ask.mutate({ id: evaluation.id, seatId, up });
  const own = viewer.seatId;
  const up = own !== null && hands.includes(own);
  return (
    <div className={styles.queue}>
      <p role="status">{hands.length === 0 ? 'Nobody asks to speak.' : `Ask to speak, the longest waiting first:`}</p>
      {hands.length > 0 ? (
        <ol className={styles.hands} aria-label="Who asks to speak">
          {hands.map((seatId, at) => (
            <li key={seatId}>
              <span className="figures">{at + 1}.</span> <SeatShape position={faces.seat(seatId)?.position ?? 0} size={16} /> <b>{faces.seatLabel(seatId)}</b>
              {seatId === own ? ' (you)' : ''}
              {(viewer.leads || viewer.owner) && seatId !== own ? (
                <Button tone="quiet" busy={ask.isPending} aria-label={`${faces.seatLabel(seatId)} has spoken`} onClick={() => put(seatId, false)}>
                  Has spoken
                </Button>
              ) : null}
            </li>
          ))}
        </ol>
      ) : null}
      {data.held ? <p className="small">Your hand is up for you alone: the others see it once what is open is revealed.</p> : null}
      {mayAsk && own !== null ? (
        <div>
          <Button busy={ask.isPending} onClick={() => put(own, !up)}>
            {up ? 'I need not speak any more' : 'Ask to speak'}
          </Button>
        </div>
      ) : null}
      <Refusal error={ask.error} words={refusalDetails(ask.error)?.code === 'still-open' ? 'A hand that everybody has seen stays up until what is open is revealed.' : null} />
    </div>
  );
}
