import { type ReactNode, useId } from 'react';

type FieldIds = {
  readonly id: string;
  readonly 'aria-describedby': string | undefined;
  readonly 'aria-invalid': true | undefined;
};

type FieldProps = {
  readonly label: string;
  /** A sentence of help under the label. */
  readonly hint?: string | undefined;
  /** What is wrong with what was typed, beside the field. */
  readonly fault?: string | null | undefined;
  /** Draws the control; spread the ids on it. */
  readonly children: (ids: FieldIds) => ReactNode;
};

/** A labelled control with its help and its fault, tied together for screen readers. */
export function Field({ label, hint, fault, children }: FieldProps) {
  const id = useId();
  const described = [hint ? `${id}-hint` : '', fault ? `${id}-fault` : ''].filter((one) => one !== '').join(' ');
  return (
    <div className="stack upright gap-4">
      <label htmlFor={id} className="strong">
        {label}
      </label>
      {hint ? (
        <p id={`${id}-hint`} className="small">
          {hint}
        </p>
      ) : null}
      {children({
        id,
        'aria-describedby': described === '' ? undefined : described,
        'aria-invalid': fault ? true : undefined,
      })}
      {fault ? (
        <p id={`${id}-fault`} className="fault" role="alert">
          {fault}
        </p>
      ) : null}
    </div>
  );
}
