import { refusalText } from '../_data/refusalText';

type RefusalProps = {
  /** The error of a query or mutation; nothing is drawn while there is none. */
  readonly error: unknown;
  /** Said instead of the plain words of the refusal, where a page knows better. */
  readonly words?: string | null;
};

/** A refusal or a failure in words, read aloud at once. What was typed stays where it is. */
export function Refusal({ error, words }: RefusalProps) {
  if (error === null || error === undefined) return null;
  return (
    <p role="alert" className="refusal">
      {words ?? refusalText(error)}
    </p>
  );
}
