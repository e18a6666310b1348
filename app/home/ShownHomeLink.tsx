'use client';

import { useRef, useState, useSyncExternalStore } from 'react';
import { Button } from '../_parts/Button';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { copyText, useQrCode } from '../_parts/linkOut';
import styles from './home.module.css';

type ShownHomeLinkProps = { readonly name: string; readonly link: string };

/** A home's link with its code, and the telephone's own way of sending it on where the browser has one. */
export function ShownHomeLink({ name, link }: ShownHomeLinkProps) {
  const code = useQrCode(link);
  const field = useRef<HTMLInputElement>(null);
  const [told, setTold] = useState('');
  const shares = useSyncExternalStore(
    () => () => undefined,
    () => 'share' in navigator,
    () => false,
  );
  const copy = async () =>
    setTold(
      (await copyText(link, field.current))
        ? 'Copied.'
        : 'This browser does not let a page copy. Select the link and copy it by hand.',
    );
  // A person who closes the sheet has shared nothing, and has done nothing wrong.
  const share = () => void navigator.share({ title: `Note for ${name}’s home`, url: link }).catch(() => undefined);
  return (
    <div className="stack gap-6">
      {code === null ? null : (
        <img
          src={code}
          width={180}
          height={180}
          alt={`QR code of the link for ${name}’s home`}
          className={styles.code}
        />
      )}
      <Field
        label={`Link for ${name}’s home`}
        hint="Shown this once. It can be opened again and again, until it is ended."
      >
        {(ids) => (
          <input
            {...ids}
            ref={field}
            readOnly
            value={link}
            className={`key ${fieldStyles.control}`}
            onFocus={(event) => event.target.select()}
          />
        )}
      </Field>
      <div className="tools">
        {shares ? (
          <Button tone="main" aria-label={`Send on the link for ${name}’s home`} onClick={share}>
            Send it on
          </Button>
        ) : null}
        <Button aria-label={`Copy the link for ${name}’s home`} onClick={() => void copy()}>
          Copy
        </Button>
        <p role="status" className="small">
          {told}
        </p>
      </div>
    </div>
  );
}
