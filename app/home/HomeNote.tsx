'use client';

import { useQuery } from '@tanstack/react-query';
import type { HomeNote as Note } from '#lib/contract/homeNote';
import { useTRPCClient } from '../_data/trpc';
import { useLinkToken } from '../join/useArrive';
import { Button } from '../_parts/Button';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { NoteOf } from './NoteOf';

const tokenForm = /^[A-Za-z0-9_-]{20,100}$/;

/** One puppy's note, for its home; the link's secret stands after the # and goes to the server in a body. */
export function HomeNote() {
  const token = useLinkToken();
  const client = useTRPCClient();
  const whole = token !== null && tokenForm.test(token);
  const note = useQuery({
    queryKey: ['home', token],
    queryFn: () => client.home.read.mutate({ token: token ?? '' }),
    enabled: whole,
  });
  return (
    <>
      <PageHead title={note.data?.puppy.name ?? 'Note for a home'} facts={note.data ? factsLine(note.data) : ''} />
      <Page width="text">
        {token === null || note.isLoading ? <Loading what="the note" /> : null}
        {token !== null && !whole ? (
          <EmptyState title="This link is not complete">
            <p>The part after # is missing or cut short. Open the whole link as it was sent.</p>
          </EmptyState>
        ) : null}
        <Refusal
          error={note.error}
          words={note.error ? 'This link has been ended or replaced. Ask the breeder for a fresh one.' : null}
        />
        {note.data ? (
          <>
            <div className="stack gap-6 unprinted">
              <Button tone="main" onClick={() => window.print()}>
                Print this note
              </Button>
              <p className="small">One page. To keep it as a PDF, choose “save as PDF” where the printer is chosen.</p>
            </div>
            <NoteOf note={note.data} />
          </>
        ) : null}
      </Page>
    </>
  );
}

function factsLine({ litterName, breed, puppy }: Note): string {
  return [litterName, breed, puppy.sex].filter((one) => one !== '').join(' · ');
}
