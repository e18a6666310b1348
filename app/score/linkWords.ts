import type { Scoring } from './useScoring';

const patienceMs = 3000;

export type StandingLine = { readonly tone: 'calm' | 'note' | 'stop'; readonly words: string; readonly link: string | null };

/** The standing truth about the person's entries and the link (LV2): nothing is called saved before the server has said so. */
export function standingLine(scoring: Pick<Scoring, 'view' | 'onServer' | 'waiting' | 'link'>, device: 'phone' | 'computer'): StandingLine {
  const { view, onServer, waiting } = scoring;
  const link = linkLine(scoring);
  const refused = view.state.rows.filter((row) => row.status === 'refused').length;
  if (waiting > 0) {
    const inMemory = view.state.rows.some((row) => row.status === 'waiting' && row.kept === 'memory');
    return { tone: inMemory ? 'stop' : 'note', words: inMemory ? `${waiting} only in this page: keep it open` : `${waiting} only on this ${device}`, link };
  }
  if (refused > 0) return { tone: 'stop', words: `${refused} refused by the server`, link };
  if (onServer === 0) return { tone: link === null ? 'calm' : 'note', words: 'nothing to send', link };
  return { tone: link === null ? 'calm' : 'note', words: onServer === 1 ? '1 answer on the server' : `all ${onServer} on the server`, link };
}

function linkLine({ link, view }: Pick<Scoring, 'view' | 'link'>): string | null {
  const { unansweredSince } = view.state;
  const silent = unansweredSince !== null && view.at - unansweredSince >= patienceMs ? unansweredSince : null;
  if (!link.connected && link.lostAt !== null) return `no link since ${clock(Math.min(link.lostAt, silent ?? link.lostAt))}`;
  if (silent !== null) return `no answer since ${clock(silent)}`;
  return null;
}

function clock(at: number): string {
  return new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' }).format(at);
}
