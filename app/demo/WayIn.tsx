'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { ButtonLink } from '../_parts/ButtonLink';
import { Refusal } from '../_parts/Refusal';

type WayInProps = {
  readonly me: SessionView;
  readonly evaluationId: string;
  readonly path: string;
  readonly tone: 'plain' | 'main';
  readonly words: string;
};

/** A link into one evaluation. A seat belongs to one evaluation only, so for the other the visitor changes seats first. */
export function WayIn({ me, evaluationId, path, tone, words }: WayInProps) {
  const href = `${path}?id=${evaluationId}`;
  if (me.owner || me.seat?.evaluationId === evaluationId) {
    return (
      <ButtonLink href={href} tone={tone}>
        {words}
      </ButtonLink>
    );
  }
  return <ChangeSeats evaluationId={evaluationId} href={href} tone={tone} words={words} />;
}

type ChangeSeatsProps = Pick<WayInProps, 'evaluationId' | 'tone' | 'words'> & { readonly href: string };

function ChangeSeats({ evaluationId, href, tone, words }: ChangeSeatsProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const router = useRouter();
  const sit = useMutation(
    trpc.demo.sitIn.mutationOptions({
      onSuccess: () => {
        queries.clear();
        router.push(href);
      },
    }),
  );
  return (
    <>
      <Button tone={tone} busy={sit.isPending} onClick={() => sit.mutate({ id: evaluationId })}>
        {words}
      </Button>
      <Refusal error={sit.error} />
    </>
  );
}
