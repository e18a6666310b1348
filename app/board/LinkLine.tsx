import styles from './LinkLine.module.css';

const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** Says when what is shown may be out of date. Silent while the link is up. */
export function LinkLine({ lostAt }: { readonly lostAt: number | null }) {
  return (
    <p role="status" className={lostAt === null ? 'aloud' : styles.lost}>
      {lostAt === null ? '' : `No link to the server since ${clock.format(lostAt)}. What you see may be out of date; it catches up by itself.`}
    </p>
  );
}
