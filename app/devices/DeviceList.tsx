'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { DevicesView } from '#lib/contract/sessionView';
import { momentWords } from '../_parts/timeWords';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Confirm } from '../_parts/Confirm';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import styles from './devices.module.css';

type DeviceListProps = {
  /** For the owner, who belongs to no evaluation whose doorbell would ring: asks now and then. */
  readonly unhurried: boolean;
};

const cameWords = {
  link: 'by its link',
  code: 'by a spoken code',
  approval: 'let in by another device',
  passphrase: 'by passphrase',
  recovery: 'by a recovery code',
} as const;

/** Who asks to be let in comes first, then who is in. */
export function DeviceList({ unhurried }: DeviceListProps) {
  const trpc = useTRPC();
  const list = useQuery({ ...trpc.session.devices.queryOptions(), refetchInterval: unhurried ? 3000 : false });
  return (
    <section className="stack gap-14" aria-label="Devices">
      {list.isPending ? <Loading what="your devices" /> : null}
      <Refusal error={list.error} />
      <div role="status">
        {list.data?.asking.map((request) => (
          <Asking key={request.id} request={request} />
        ))}
      </div>
      <ul className="list topped lined">
        {list.data?.devices.map((device) => (
          <DeviceLine key={device.id} device={device} />
        ))}
      </ul>
    </section>
  );
}

function Asking({ request }: { readonly request: DevicesView['asking'][number] }) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const answer = useMutation(
    trpc.session.answerDevice.mutationOptions({ onSuccess: () => queries.invalidateQueries() }),
  );
  return (
    <div className={`warned stack gap-12 ${styles.asking}`}>
      <h2>A device asks to be let in</h2>
      <p className={styles.digits} aria-label={`Number ${Array.from(request.digits).join(' ')}`}>
        {request.digits}
      </p>
      <p>
        Is it yours, and does it show this number? It will read and write everything that you do. If in doubt, refuse.
      </p>
      <Refusal error={answer.error} />
      <div className="wrap gap-12">
        <Button
          tone="main"
          busy={answer.isPending}
          onClick={() => answer.mutate({ requestId: request.id, letIn: true })}
        >
          Same number: let it in
        </Button>
        <Button
          tone="stop"
          busy={answer.isPending}
          onClick={() => answer.mutate({ requestId: request.id, letIn: false })}
        >
          Refuse
        </Button>
      </div>
    </div>
  );
}

function DeviceLine({ device }: { readonly device: DevicesView['devices'][number] }) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const end = useMutation(trpc.session.endDevice.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  return (
    <li className={`stack gap-4 ${styles.row}`}>
      <p>
        <b>{device.here ? 'This device' : 'Another device'}</b>, {cameWords[device.cameBy]}
      </p>
      <p className="small figures">
        Since {momentWords(device.createdAt)}
        {device.here ? '' : `, last heard of ${momentWords(device.seenAt)}`}
      </p>
      {device.here ? null : (
        <Confirm
          tone="quiet"
          words="End its session"
          about={`since ${momentWords(device.createdAt)}`}
          doIt="End it"
          busy={end.isPending}
          onConfirm={() => end.mutate({ deviceId: device.id })}
        >
          <p>It is signed out at once. What it has not sent by then stays on it, unsent.</p>
        </Confirm>
      )}
      <Refusal error={end.error} />
    </li>
  );
}
