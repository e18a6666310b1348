'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { SeatFace } from '#lib/contract/evaluationView';
import { importLimits } from '#lib/contract/fileLimits';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button, ButtonLink } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { FieldText } from '../_parts/FieldText';
import { offerFile } from '../_parts/offerFile';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_data/refusalText';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import { ImportPreview } from './ImportPreview';
import styles from './import.module.css';

const counted = (number: number) => number.toLocaleString('en');
const limitWords = `At most ${counted(importLimits.rows)} rows and ${counted(importLimits.bytes)} bytes`;

type ImportDeskProps = { readonly seat: SeatFace };

/** First look at what would become of each row, then write: nothing before the second press. */
export function ImportDesk({ seat }: ImportDeskProps) {
  const evaluation = useEvaluation();
  const [text, setText] = useState('');
  const trpc = useTRPC();
  const queries = useQueryClient();
  const preview = useMutation(trpc.card.previewImport.mutationOptions());
  const write = useMutation(trpc.card.importScores.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  useUnsavedGuard(text !== '' && !write.isSuccess);
  // A preview stands for the text it was made from; other text needs another look.
  const looked = preview.data && preview.variables.text === text ? preview.data : null;
  const type = (next: string) => {
    setText(next);
    write.reset();
  };
  return (
    <div className={`stack ${styles.columns}`}>
      <section className={`stack upright gap-16 ${styles.part}`}>
        <h2>Your scores as typed</h2>
        <TemplateFile seat={seat} />
        <ImportFile onText={type} />
        <FieldText
          label="Scores"
          kind="lines"
          hint={`Or paste them here: one row a line, the heading first. ${limitWords}.`}
          value={text}
          maxLength={importLimits.bytes}
          onChange={type}
        />
        <div className="wrap gap-12">
          <Button
            tone={looked?.sound ? 'plain' : 'main'}
            busy={preview.isPending}
            disabled={text.trim() === ''}
            onClick={() => preview.mutate({ id: evaluation.id, text })}
          >
            See what would happen
          </Button>
        </div>
        <p role="status" className="small">
          {preview.isPending ? 'All rows are sent, and each is looked at. Nothing is written.' : ''}
          {write.isPending
            ? `${counted(looked?.rows.length ?? 0)} rows are sent. The server writes all of them, or none.`
            : ''}
        </p>
        <Refusal error={preview.error} words={fileFault(preview.error)} />
        {looked ? <ImportPreview preview={looked} /> : null}
        {looked?.sound && !write.isSuccess ? (
          <div className="wrap gap-12">
            <Button tone="main" busy={write.isPending} onClick={() => write.mutate({ id: evaluation.id, text })}>
              Write these scores
            </Button>
          </div>
        ) : null}
        <Refusal error={write.error} words={fileFault(write.error)} />
        {write.isSuccess ? (
          <div role="status" className="told stack starts gap-12 boxed">
            <p>
              <b>On the server.</b> Look over your card before you lock it.
            </p>
            <ButtonLink tone="main" href={`/score?id=${evaluation.id}`}>
              Go to your card
            </ButtonLink>
          </div>
        ) : null}
      </section>
      <ImportHelp label={seat.label} />
    </div>
  );
}

/** Where a file is wrong and how much more is, in words; null when the refusal is about something else. */
function fileFault(error: unknown): string | null {
  const refusal = refusalDetails(error);
  if (refusal?.code !== 'bad-input') return null;
  const { line, column, message, more } = refusal.details;
  if (typeof line !== 'number' || typeof column !== 'number' || typeof message !== 'string') return null;
  const rest =
    typeof more === 'number' && more > 0 ? ` ${more} more ${more === 1 ? 'fault' : 'faults'} after that.` : '';
  return `Line ${line}, column ${column}: ${message}${rest} Nothing was read.`;
}

/** Every cell of the own card with a blank score, to be filled in elsewhere. */
function TemplateFile({ seat }: ImportDeskProps) {
  const { id } = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const fetch = useMutation({
    mutationFn: () => queries.fetchQuery(trpc.card.template.queryOptions({ id })),
    onSuccess: ({ text }) => offerFile(`scores-${seat.label.replaceAll(/[^\p{L}\p{N}-]+/gu, '-')}.csv`, text),
  });
  return (
    <div className="stack starts gap-4">
      <Button busy={fetch.isPending} onClick={() => fetch.mutate()}>
        Get a file to fill in
      </Button>
      <span className="small">
        A line for every puppy and criterion that you score, the scores blank. A blank that stays blank changes nothing.
      </span>
      <Refusal error={fetch.error} />
    </div>
  );
}

/** Reads a chosen file on the device into the field below; sends nothing. */
function ImportFile({ onText }: { readonly onText: (text: string) => void }) {
  const [fault, setFault] = useState<string | null>(null);
  const read = async (file: File | undefined) => {
    if (!file) return;
    if (file.size > importLimits.bytes)
      return setFault(`This file has ${counted(file.size)} bytes. ${limitWords}. Nothing was read.`);
    const text = await readUtf8(file);
    setFault(
      text === null ? 'This file is not in UTF-8. Save it as “CSV UTF-8” and choose it again. Nothing was read.' : null,
    );
    if (text !== null) onText(text);
  };
  return (
    <Field label="Choose a CSV file" fault={fault}>
      {(ids) => (
        <input
          {...ids}
          type="file"
          accept=".csv,text/csv,text/plain"
          className={`key ${fieldStyles.control}`}
          onChange={(event) => void read(event.target.files?.[0])}
        />
      )}
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

/** What a file looks like, with this evaluation's own names in it. */
function ImportHelp({ label }: { readonly label: string }) {
  const { sheet, puppies } = useEvaluation();
  const [first] = puppies;
  const [criterion] = sheet.criteria;
  return (
    <aside className="stack upright gap-16" aria-label="What a file looks like">
      <h2>What a file looks like</h2>
      <p>
        Four columns under this heading, one score a line. The evaluator is always you, <b>{label}</b>: nobody’s scores
        but your own can be brought in.
      </p>
      <pre
        className={styles.sample}
      >{`puppy,evaluator,criterion,score\n${first?.name ?? 'name'},${label},${criterion?.key ?? 'criterion'},${sheet.scale.high - 1}`}</pre>
      <p>
        Scores are whole steps from {sheet.scale.low} to {sheet.scale.high}; a two-sided criterion takes −3 (too little)
        to 3 (too much), 0 as asked. Leave the score blank where nothing was scored.
      </p>
      <Disclosure bare words="Names of the criteria">
        <ul className="points">
          {sheet.criteria.map(({ key, name, twoSided, handsOnly }) => (
            <li key={key}>
              <code>{key}</code> {name}
              {twoSided ? ', two-sided' : ''}
              {handsOnly ? ', by hand only' : ''}
            </li>
          ))}
        </ul>
      </Disclosure>
      <Disclosure bare words="Names of the puppies">
        <ul className="points">
          {puppies.map(({ id, name, withdrawn }) => (
            <li key={id}>
              {name}
              {withdrawn ? ' (withdrawn)' : ''}
            </li>
          ))}
        </ul>
      </Disclosure>
    </aside>
  );
}
