'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { FieldText } from '../_parts/FieldText';

type LinkAddressProps = { readonly address: string | null; readonly onChange: (address: string | null) => void };

const onlyHere = new Set(['localhost', '127.0.0.1', '[::1]']);

/** Where links reach nobody says so: in the demo, and on localhost, where it takes the address that telephones can reach. */
export function LinkAddress({ address, onChange }: LinkAddressProps) {
  const [here] = useState(() => ({ host: window.location.hostname, port: window.location.port }));
  const [typed, setTyped] = useState(address ?? '');
  const trpc = useTRPC();
  const me = useQuery(trpc.session.me.queryOptions());
  if (me.data?.demo) {
    return (
      <p className="warned stack gap-12 roomy">
        In the demo a link opens nothing on another device: this copy belongs to your browser alone.
      </p>
    );
  }
  if (!onlyHere.has(here.host)) return null;
  const sound = /^https?:\/\/[^\s/]+\/?$/.test(typed) && URL.canParse(typed);
  return (
    <div className="warned stack gap-12 roomy">
      <p>
        <b>Telephones cannot reach “{here.host}”.</b> They need this machine’s address in your network, which is printed
        where Evenstack was started (“On this network: …”). Put it here and links are made with it.
      </p>
      <FieldText
        label="Address that telephones use"
        kind="url"
        hint={`For instance http://192.168.1.20${here.port === '' ? '' : `:${here.port}`}`}
        value={typed}
        maxLength={120}
        fault={typed === '' || sound ? null : 'An address starts with http:// and names the machine, nothing more.'}
        onChange={(next) => {
          setTyped(next);
          onChange(/^https?:\/\/[^\s/]+\/?$/.test(next) && URL.canParse(next) ? next.replace(/\/$/, '') : null);
        }}
      />
    </div>
  );
}
