import type { RouterOutputs } from '../_parts/routerOutputs';
import styles from './Import.module.css';

type Evaluation = RouterOutputs['evaluation']['get'];
type ImportHelpProps = { readonly evaluation: Evaluation; readonly label: string };

/** What a file looks like, with this evaluation's own names in it. */
export function ImportHelp({ evaluation: { sheet, puppies }, label }: ImportHelpProps) {
  const [first] = puppies;
  const [criterion] = sheet.criteria;
  return (
    <aside className={styles.help} aria-label="What a file looks like">
      <h2>What a file looks like</h2>
      <p>
        Four columns under this heading, one score a line. The evaluator is always you, <b>{label}</b>: nobody’s scores but your own can be brought
        in.
      </p>
      <pre className={styles.sample}>{`puppy,evaluator,criterion,score\n${first?.name ?? 'name'},${label},${criterion?.key ?? 'criterion'},${sheet.scale.high - 1}`}</pre>
      <p>
        Scores are whole steps from {sheet.scale.low} to {sheet.scale.high}; a two-sided criterion takes −3 (too little) to 3 (too much), 0 as
        asked. Leave the score blank where nothing was scored.
      </p>
      <details className={styles.more}>
        <summary>Names of the criteria</summary>
        <ul>
          {sheet.criteria.map(({ key, name, twoSided, handsOnly }) => (
            <li key={key}>
              <code>{key}</code> {name}
              {twoSided ? ', two-sided' : ''}
              {handsOnly ? ', by hand only' : ''}
            </li>
          ))}
        </ul>
      </details>
      <details className={styles.more}>
        <summary>Names of the puppies</summary>
        <ul>
          {puppies.map(({ id, name, withdrawn }) => (
            <li key={id}>
              {name}
              {withdrawn ? ' (withdrawn)' : ''}
            </li>
          ))}
        </ul>
      </details>
    </aside>
  );
}
