import type { OutboxRow } from '#lib/evaluation/outboxState';
import type { OutboxView } from '../_data/outbox';
import { clockWords } from '../_parts/timeWords';
import type { Scoring } from './useScoring';

/** Short enough that a dead link is told within three and a half seconds of a tap on a slow telephone. */
const patienceMs = 2500;
/** A device takes milliseconds to write; what takes longer is not there yet. */
const writtenWithinMs = 500;

type StandingLine = { readonly tone: 'calm' | 'note' | 'stop'; readonly words: string; readonly link: string | null };

type Counted = Pick<Scoring, 'view' | 'onServer' | 'waiting' | 'again' | 'doubted' | 'said' | 'open' | 'link'>;

/** The standing truth about the person's entries and the link (LV2): nothing is called saved before the server has said so. */
export function standingLine(scoring: Counted, device: 'phone' | 'computer'): StandingLine {
  const { view, onServer, waiting, again, doubted } = scoring;
  const link = linkLine(scoring);
  const refused = view.state.rows.filter((row) => row.status === 'refused').length;
  if (waiting > 0) {
    if (view.state.rows.some((row) => isInPageOnly(row, view.at)))
      return { tone: 'stop', words: `${waiting} only in this page: keep it open`, link };
    const turnedAway = view.state.refusal !== null;
    const fresh = waiting - again;
    const words = [
      fresh > 0 ? `${fresh} only on this ${device}` : `${onServer} of ${scoring.said} on the server`,
      ...(again > 0 ? [againWords(scoring)] : []),
    ];
    return {
      tone: turnedAway ? 'stop' : 'note',
      words: words.join('; '),
      link: turnedAway ? 'the server does not take them' : link,
    };
  }
  if (refused > 0) return { tone: 'stop', words: `${refused} refused by the server`, link };
  if (doubted > 0)
    return { tone: 'note', words: `${onServer} on the server; asking about ${doubted} more that it had`, link };
  const late = view.state.rows.filter((row) => row.status === 'late').length;
  if (late > 0) return { tone: 'note', words: `${late} came too late to count`, link };
  if (onServer === 0) return { tone: link === null ? 'calm' : 'note', words: 'nothing to send', link };
  return {
    tone: link === null ? 'calm' : 'note',
    words: onServer === 1 ? '1 answer on the server' : `all ${onServer} on the server`,
    link,
  };
}

/** Of entries that a restored server lacks: while its round is closed they would come too late, so they are kept until it is opened again or revealed. */
function againWords({ again, open }: Counted): string {
  return open ? `${again} being sent again` : `${again} kept on this device`;
}

/** Whether an entry that waits is nowhere but in this page. */
export function isInPageOnly({ status, kept, entry }: OutboxRow, at: number): boolean {
  return status === 'waiting' && (kept === 'memory' || (kept === 'pending' && at - entry.madeAt >= writtenWithinMs));
}

/** Since when a call has been out without an answer; null while that is not worth saying. */
export function silentSince({ state: { unansweredSince, failures }, at }: OutboxView): number | null {
  return unansweredSince !== null && (failures > 0 || at - unansweredSince >= patienceMs) ? unansweredSince : null;
}

function linkLine({ link, view }: Pick<Scoring, 'view' | 'link'>): string | null {
  const silent = silentSince(view);
  if (!link.connected && link.lostAt !== null)
    return `no link since ${clockWords(Math.min(link.lostAt, silent ?? link.lostAt))}`;
  if (silent !== null) return `no answer since ${clockWords(silent)}`;
  return null;
}
