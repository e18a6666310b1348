import type { ReactNode } from 'react';
import styles from './DataTable.module.css';

type DataRow = { readonly key: string; readonly head: ReactNode; readonly cells: readonly ReactNode[] };

type DataTableProps = {
  readonly caption: string;
  /** Heads of all columns, that of the row heads first. */
  readonly heads: readonly ReactNode[];
  readonly rows: readonly DataRow[];
  /** Figures line up to the right. */
  readonly figures?: boolean;
};

/** A table that scrolls inside itself on a narrow screen, by keyboard too, and lies open in print. */
export function DataTable({ caption, heads, rows, figures = false }: DataTableProps) {
  return (
    <div role="region" aria-label={caption} tabIndex={0} className={styles.scroll}>
      <table className={`${styles.table} ${figures ? `figures ${styles.right}` : ''}`}>
        <caption>
          <span>{caption}</span>
        </caption>
        <thead>
          <tr>
            {heads.map((head, at) => (
              <th key={at} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, head, cells }) => (
            <tr key={key}>
              <th scope="row">{head}</th>
              {cells.map((cell, at) => (
                <td key={at}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
