import styles from './Devices.module.css';

/** Shown this once: the server keeps only what they hash to. */
export function RecoveryCodes({ codes }: { readonly codes: readonly string[] }) {
  const written = codes.map((code) => code.match(/.{4}/g)?.join('-') ?? code);
  return (
    <section className={styles.part} aria-label="Recovery codes">
      <p role="status">
        <b>The passphrase is set.</b> Write these eight codes down, or print them, and keep them where you keep papers. Each lets you in once if you
        forget the passphrase. They are not shown again; earlier ones no longer work.
      </p>
      <ol className={styles.codes}>
        {written.map((code) => (
          <li key={code}>{code}</li>
        ))}
      </ol>
    </section>
  );
}
