'use client';

import { useQuery } from '@tanstack/react-query';
import { type RouterOutputs, useTRPC } from '../_data/trpc';
import { Refusal } from '../_parts/Refusal';
import { counted } from '../_parts/textWords';
import { recentWords } from '../_parts/timeWords';

type Storage = RouterOutputs['storage']['get'];

const everyMinute = 60_000;

/** How safe the data are, in a sentence: aloud when something failed, quietly when not. */
export function Backups() {
  const trpc = useTRPC();
  const storage = useQuery(trpc.storage.get.queryOptions(undefined, { refetchInterval: everyMinute }));
  if (!storage.data) return <Refusal error={storage.error} />;
  return (
    <section className="stack upright gap-12">
      <h2>Backups</h2>
      <StorageLine storage={storage.data} />
    </section>
  );
}

function StorageLine({ storage: { writesStopped, backups } }: { readonly storage: Storage }) {
  if (writesStopped) {
    return (
      <p className="warning" role="alert">
        The server’s disk failed, so it takes nothing more until it is started again. What it confirmed before is on its
        disk; phones keep what came after.
      </p>
    );
  }
  if (!backups) return <p className="small">The demonstration keeps no backups: it is thrown away after a day.</p>;
  const { lastAt, kept, shortOfRoom, failure } = backups;
  if (failure) {
    return (
      <p className="warning" role="alert">
        {failure.what === 'data'
          ? `The backup of ${recentWords(failure.at)} failed`
          : `The backup of ${recentWords(failure.at)} has the data, but not every picture`}
        : {failure.diskFull ? 'the server’s disk has too little room' : 'the server’s log says why'}.{' '}
        {failure.what === 'pictures' ? '' : lastGood(lastAt)}Scores are still stored as they come in.
      </p>
    );
  }
  return (
    <p className="small">
      {lastAt === null ? 'None made since the server started' : `Last made ${recentWords(lastAt)}`};{' '}
      {counted(kept, 'backup', 'backups')} kept in the server’s data folder
      {shortOfRoom ? ', fewer than usual, since room on its disk is short' : ''}. One is made at every start, stop, lock
      and reveal, and every 15 minutes in which something changed, with pictures. Kept are the last 24 and, going back,
      the last of each hour, day and month. Copy them to another place now and then: they lie on the same disk.
    </p>
  );
}

const lastGood = (lastAt: number | null) =>
  lastAt === null
    ? 'None has been made since the server started. '
    : `The last good one is of ${recentWords(lastAt)}. `;
