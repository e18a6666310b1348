'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { evaluationFileLimits } from '#lib/contract/fileLimits';
import { postEvaluation } from '../_data/postEvaluation';
import { refusalDetails } from '../_data/refusalText';
import { ButtonLink } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { Refusal } from '../_parts/Refusal';

/** An evaluation that another Evenstack wrote as one file, to be read here. */
export function BringEvaluation() {
  return (
    <Disclosure words="Bring in an evaluation from another Evenstack">
      <BringForm />
    </Disclosure>
  );
}

const megabytes = (bytes: number) => (bytes / 1_000_000).toLocaleString('en');

function BringForm() {
  const queries = useQueryClient();
  const [share, setShare] = useState(0);
  const bring = useMutation({
    mutationFn: (file: File) => postEvaluation(file, setShare),
    onMutate: () => setShare(0),
    onSuccess: () => queries.invalidateQueries(),
  });
  const { wholeBytes, pictures } = evaluationFileLimits;
  return (
    <div className="stack upright gap-12">
      <p>
        Its owner gets the file from the record page there. Here it is checked whole, as its own record tells it, before
        anything of it is kept; then it is only read: nobody scores, looks, picks or adds to it, and no device of its
        panel is let in.
      </p>
      <Field
        label="Choose the file"
        hint={`The zip, or its text where there are no pictures. At most ${megabytes(wholeBytes)} MB and ${pictures} pictures.`}
      >
        {(ids) => (
          <input
            {...ids}
            type="file"
            accept=".zip,.json,application/zip,application/json"
            disabled={bring.isPending}
            className={`key ${fieldStyles.control}`}
            onChange={(event) => {
              const [file] = event.target.files ?? [];
              if (file) bring.mutate(file);
            }}
          />
        )}
      </Field>
      <p role="status">
        {bring.isPending
          ? share < 1
            ? `Sending: ${Math.floor(share * 100)} of 100 parts are out.`
            : 'It is on the server and being checked.'
          : ''}
      </p>
      <Refusal error={bring.error} words={refusedWords(bring.error)} />
      {bring.isSuccess ? (
        <div className="told stack starts gap-12 boxed">
          <p>
            <b>Imported.</b> Its record was checked and holds.
          </p>
          <ButtonLink tone="main" href={`/board?id=${bring.data}`}>
            Go to its board
          </ButtonLink>
        </div>
      ) : null}
    </div>
  );
}

/** What the server found in the file, as it says it; null when the refusal is about something else. */
function refusedWords(error: unknown): string | null {
  const refusal = refusalDetails(error);
  const message = refusal?.code === 'file-refused' ? refusal.details['message'] : undefined;
  return typeof message === 'string' ? `${message} Nothing was changed.` : null;
}
