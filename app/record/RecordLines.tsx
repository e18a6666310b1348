import styles from './RecordLines.module.css';

/** Sentences of the record, one under the other. */
export function RecordLines({ lines }: { readonly lines: readonly string[] }) {
  return (
    <ul className={styles.lines}>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
