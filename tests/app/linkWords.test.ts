import { describe, expect, it } from 'vitest';
import type { Link } from '#app/_data/useLive';
import { onlyHereWords } from '#app/_parts/useOnlyHere';
import { standingLine } from '#app/score/linkWords';
import { emptyOutbox, type OutboxRow, type OutboxState } from '#lib/evaluation/outboxState';

const row = (change: Partial<OutboxRow>): OutboxRow => ({
  entry: {
    id: '1'.repeat(32),
    subject: 'a'.repeat(32),
    counter: 1,
    madeAt: 1,
    body: { kind: 'manner', manner: 'relaxed' },
  },
  evaluationId: 'e',
  roundId: 'r',
  seatId: 's',
  status: 'waiting',
  code: null,
  kept: 'disk',
  ...change,
});
type Given = {
  readonly link?: Link;
  readonly now?: number;
  readonly onServer?: number;
  readonly open?: boolean;
  readonly doubted?: number;
};
const up: Link = { connected: true, lostAt: null, table: null };
const at = Date.UTC(2026, 8, 12, 12, 3, 30);
const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' }).format(at);

function line(
  state: Partial<OutboxState>,
  { link = up, now = at, onServer = 53, open = true, doubted = 0 }: Given = {},
) {
  const full = { ...emptyOutbox, ...state };
  const waiting = full.rows.filter((one) => one.status === 'waiting').length;
  const again = full.rows.filter((one) => one.again === true).length;
  return standingLine(
    {
      view: { state: full, loaded: true, storeFailed: false, at: now },
      onServer,
      waiting,
      again,
      doubted,
      said: onServer + waiting,
      open,
      link,
    },
    'phone',
  );
}

describe('the standing line', () => {
  it('LV2: never says that all is on the server while an entry waits, was refused, or lives in the page only', () => {
    expect(line({ rows: [row({})] })).toEqual({ tone: 'note', words: '1 only on this phone', link: null });
    expect(line({ rows: [row({ kept: 'memory' })] }).words).toBe('1 only in this page: keep it open');
    expect(line({ rows: [row({ status: 'refused', code: 'bad-input' })] })).toEqual({
      tone: 'stop',
      words: '1 refused by the server',
      link: null,
    });
  });

  it('LV2: says all is on the server when it is', () => {
    expect(line({})).toEqual({ tone: 'calm', words: 'all 53 on the server', link: null });
    expect(line({}, { onServer: 0 }).words).toBe('nothing to send');
  });

  it('LV2: says of a restored server what it has, what is sent to it again, and what is kept back while that would come too late', () => {
    const rows = [row({ again: true }), row({ again: true })];
    expect(line({ rows }, { onServer: 4 }).words).toBe('4 of 6 on the server; 2 being sent again');
    expect(line({ rows }, { onServer: 4, open: false }).words).toBe('4 of 6 on the server; 2 kept on this device');
    expect(line({ rows: [...rows, row({})] }, { onServer: 4 }).words).toBe('1 only on this phone; 2 being sent again');
    expect(line({}, { onServer: 4, doubted: 5 }).words).toBe('4 on the server; asking about 5 more that it had');
  });

  it('LV2: says since when there is no link, and when a write has had no answer for two and a half seconds', () => {
    expect(line({}, { link: { ...up, connected: false, lostAt: at } })).toMatchObject({
      tone: 'note',
      link: `no link since ${clock}`,
    });
    expect(line({ rows: [row({})], unansweredSince: at }, { now: at + 2499 }).link).toBeNull();
    expect(line({ rows: [row({})], unansweredSince: at }, { now: at + 2500 }).link).toBe(`no answer since ${clock}`);
  });
});

it('SC6: signing out says what it forgets: what waits is lost, and what the server has could not be sent again', () => {
  const words = (entries: number, spare: number) => onlyHereWords({ entries, pictures: 0, spare });
  expect(words(0, 0)).toBe('Everything entered on this device is on the server.');
  expect(words(0, 9)).toMatch(
    /^Everything entered on this device is on the server\. It also forgets 9 answers that the server has: .* could no longer send them again\.$/,
  );
  expect(words(1, 1)).toMatch(
    /^1 entry is only on this device\. .* It also forgets 1 answer that the server has: .* send it again\.$/,
  );
});
