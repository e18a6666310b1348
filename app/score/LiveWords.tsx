import { standingLine } from './linkWords';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';

/** The one polite live region: the puppy shown, where the table is, and the link; never every tap. */
export function LiveWords({ scoring, shown }: { readonly scoring: Scoring; readonly shown: Shown }) {
  const { table } = shown;
  const link = standingLine(scoring, 'phone').link;
  const refused = scoring.view.state.rows.some((row) => row.status === 'refused');
  const words = [
    `Scoring ${shown.puppy.name}.`,
    table && table.showing.id !== shown.showing.id ? `The table is on ${table.puppy.name}.` : '',
    link === null ? '' : `There is ${link}.`,
    refused ? 'An answer was refused by the server.' : '',
  ];
  return (
    <p className="aloud" role="status">
      {words.filter((word) => word !== '').join(' ')}
    </p>
  );
}
