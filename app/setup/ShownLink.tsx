'use client';

import { toString as drawQrCode } from 'qrcode';
import { useEffect, useRef, useState } from 'react';
import { Button } from '../_parts/Button';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { copyText } from './copyText';
import styles from './Setup.module.css';

type ShownLinkProps = { readonly label: string; readonly token: string; readonly address: string | null };

/** A seat's one-time link and its code, shown once; the server keeps only its hash. */
export function ShownLink({ label, token, address }: ShownLinkProps) {
  const link = `${address ?? window.location.origin}/join#${token}`;
  const code = useQrCode(link);
  const field = useRef<HTMLInputElement>(null);
  const [copied, setCopied] = useState<'no' | 'yes' | 'failed'>('no');
  const copy = async () => setCopied((await copyText(link, field.current)) ? 'yes' : 'failed');
  return (
    <div className={styles.shown}>
      {code === null ? null : <img src={code} width={220} height={220} alt={`QR code of the link for ${label}`} className={styles.code} />}
      <div className={styles.shownText}>
        <Field label={`Link for ${label}`} hint="Shown this once. It opens one seat on one device and dies at first use: send it to nobody else.">
          {(ids) => <input {...ids} ref={field} readOnly value={link} className={fieldStyles.control} onFocus={(event) => event.target.select()} />}
        </Field>
        <div className={styles.actions}>
          <Button aria-label={`Copy the link for ${label}`} onClick={() => void copy()}>
            Copy
          </Button>
          <p role="status" className="small">
            {copied === 'yes' ? 'Copied.' : copied === 'failed' ? 'This browser does not let a page copy. Select the link and copy it by hand.' : ''}
          </p>
        </div>
      </div>
    </div>
  );
}

/** The link as a QR code, an SVG in a data address: drawn here, sent nowhere. Null while it is being drawn. */
function useQrCode(link: string): string | null {
  const [code, setCode] = useState<{ readonly link: string; readonly source: string } | null>(null);
  useEffect(() => {
    let current = true;
    void drawQrCode(link, { type: 'svg', margin: 4, errorCorrectionLevel: 'M' }).then((svg) => {
      if (current) setCode({ link, source: `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}` });
    });
    return () => {
      current = false;
    };
  }, [link]);
  return code?.link === link ? code.source : null;
}
