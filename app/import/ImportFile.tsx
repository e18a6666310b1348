'use client';

import { useState } from 'react';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';

/** Reads a chosen file on the device into the field below; sends nothing. */
export function ImportFile({ onText }: { readonly onText: (text: string) => void }) {
  const [fault, setFault] = useState<string | null>(null);
  const read = async (file: File | undefined) => {
    if (!file) return;
    if (file.size > 800_000) return setFault('This file is larger than any litter’s scores. Nothing was read.');
    const text = await readUtf8(file);
    setFault(text === null ? 'This file is not in UTF-8. Save it as “CSV UTF-8” and choose it again. Nothing was read.' : null);
    if (text !== null) onText(text);
  };
  return (
    <Field label="Choose a CSV file" fault={fault}>
      {(ids) => <input {...ids} type="file" accept=".csv,text/csv,text/plain" className={fieldStyles.control} onChange={(event) => void read(event.target.files?.[0])} />}
    </Field>
  );
}

async function readUtf8(file: File): Promise<string | null> {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
  } catch {
    return null;
  }
}
