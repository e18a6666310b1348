import type { RowStatus } from '#lib/evaluation/outboxState';
import { isInPageOnly, standingLine } from './linkWords';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';

/** The one polite live region: the puppy shown, where the table is, and the link; never every tap. */
export function LiveWords({ scoring, shown }: { readonly scoring: Scoring; readonly shown: Shown }) {
  const { table } = shown;
  const { link } = standingLine(scoring, 'phone');
  const { view } = scoring;
  const has = (status: RowStatus) => view.state.rows.some((row) => row.status === status);
  const words = [
    `Scoring ${shown.puppy.name}.`,
    table && table.showing.id !== shown.showing.id ? `The table is on ${table.puppy.name}.` : '',
    link === null ? '' : sentence(link),
    view.state.rows.some((row) => isInPageOnly(row, view.at)) ? 'This browser cannot write to the device: keep the page open.' : '',
    has('refused') ? 'An answer was refused by the server.' : '',
    has('late') ? 'An answer came too late to count.' : '',
  ];
  return (
    <p className="aloud" role="status">
      {words.filter((word) => word !== '').join(' ')}
    </p>
  );
}

function sentence(link: string): string {
  return link.startsWith('no ') ? `There is ${link}.` : `${link.charAt(0).toUpperCase()}${link.slice(1)}.`;
}
