import styles from './Setup.module.css';
import type { SetupView } from './setupDraft';

type PartiesListProps = { readonly setup: SetupView; /** The order as typed differs from the one on the server. */ readonly changed: boolean };

/** Who has to agree to the pick order, and whether each has, as it is worded on the server now. */
export function PartiesList({ setup, changed }: PartiesListProps) {
  const parties = setup.parties.flatMap(({ seat, confirmed }) => {
    const found = setup.seats.find((one) => one.id === seat);
    return found ? [{ ...found, confirmed }] : [];
  });
  if (parties.length === 0) return <p className="small">No other seat may pick, so nobody else has to agree to this order.</p>;
  return (
    <div>
      <h3>Who has agreed</h3>
      <p className="small">Each reads the order on the first page of its own seat and confirms it there.</p>
      <ul className={styles.parties} aria-label="Who has agreed to the pick order">
        {parties.map(({ id, label, state, confirmed }) => (
          <li key={id}>
            <b>{label}</b>: {confirmed ? 'has agreed to the order as saved' : state === 'invited' ? 'has not joined yet, so has not agreed' : 'has not agreed to the order as saved'}
          </li>
        ))}
      </ul>
      {changed && parties.some(({ confirmed }) => confirmed) ? (
        <p className={styles.caution}>The order above differs from the one they agreed to: saving it asks every one of them again.</p>
      ) : null}
    </div>
  );
}
