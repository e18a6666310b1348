'use client';

import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import styles from './JoinForm.module.css';
import { useArrive } from './useArrive';

/** The link's page. It dies at first use, so nothing is sent before a person presses: a preview must not use it up. */
export function LinkOffer({ token }: { readonly token: string }) {
  const join = useArrive<string>((client, secret) => client.session.join.mutate({ token: secret }));
  return (
    <>
      <h1>Take your place at the panel</h1>
      <ul className={styles.points}>
        <li>This browser takes the place the link was made for: no account, no password.</li>
        <li>The link works once. Press only on the device you will use on the day.</li>
        <li>Everybody scores alone. Nobody sees another’s scores before the reveal, the owner included.</li>
      </ul>
      <Refusal error={join.error} />
      <Button tone="main" busy={join.isPending || join.isSuccess} onClick={() => join.mutate(token)}>
        Join on this device
      </Button>
    </>
  );
}
