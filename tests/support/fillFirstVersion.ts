import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type Sqlite from 'better-sqlite3';
import { z } from 'zod';
import { migrationsFolder } from '#db/migrateSafely';
import { shortSheet } from '#lib/sheet/shippedSheets';
import { seededIds } from './seededIds';

type Value = string | number | null;
type Fill = { insert(table: string, row: Readonly<Record<string, Value>>): void; id(): string };

const journalSchema = z.object({ entries: z.array(z.object({ tag: z.string(), when: z.number() })) });

/** The data file as its first version made it, from the two migrations of that version, with rows in every table. */
export function fillFirstVersion(client: Sqlite.Database): void {
  runFirstMigrations(client);
  client.pragma('foreign_keys = ON');
  const random = seededIds('first version');
  const fill: Fill = {
    id: random.id,
    insert: (table, row) => {
      const names = Object.keys(row);
      client
        .prepare(
          `INSERT INTO "${table}" (${names.map((name) => `"${name}"`).join(', ')}) VALUES (${names.map(() => '?').join(', ')})`,
        )
        .run(...Object.values(row));
    },
  };
  client.transaction(() => {
    for (const day of [1, 2]) fillDay(fill, day);
    fillRecord(fill);
  })();
}

function runFirstMigrations(client: Sqlite.Database): void {
  const folder = migrationsFolder();
  const { entries } = journalSchema.parse(JSON.parse(readFileSync(new URL('meta/_journal.json', folder), 'utf8')));
  client.exec('CREATE TABLE __drizzle_migrations (id SERIAL PRIMARY KEY, hash text NOT NULL, created_at numeric)');
  for (const { tag, when } of entries.filter((entry) => /^000[01]_/.test(entry.tag))) {
    const sql = readFileSync(new URL(`${tag}.sql`, folder), 'utf8');
    for (const statement of sql.split('--> statement-breakpoint')) client.exec(statement);
    client
      .prepare('INSERT INTO __drizzle_migrations (hash, created_at) VALUES (?, ?)')
      .run(createHash('sha256').update(sql).digest('hex'), when);
  }
}

type Made = {
  readonly evaluation: string;
  readonly puppies: readonly string[];
  readonly seats: readonly string[];
  readonly devices: readonly string[];
  readonly slots: readonly string[];
};

/** One litter with one evaluation, scored, revealed, looked at again and decided; the second one is still open. */
function fillDay(fill: Fill, day: number): void {
  const { insert, id } = fill;
  const [litter, sheet] = [id(), id()];
  insert('litter', {
    id: litter,
    name: `Litter ${day}`,
    breed: 'Leonberger',
    dam: 'Dam',
    sire: 'Sire',
    whelped_on: '2026-07-18',
    created_at: day,
  });
  insert('sheet', { id: sheet, built_in: 0, body: JSON.stringify(shortSheet), created_at: day });
  const puppies = ['Fern', 'Moss', 'Sedge'].map((name, position) => {
    const puppy = {
      id: id(),
      litter_id: litter,
      position,
      name,
      sex: position === 1 ? 'dog' : 'bitch',
      collar: 'blue',
      second_mark: 'white toe',
      chip_digits: '',
    };
    insert('puppy', puppy);
    for (const weighed_on of ['2026-07-18', '2026-08-18'])
      insert('weight', { puppy_id: puppy.id, weighed_on, grams: 500 + 10 * position });
    return puppy.id;
  });
  const evaluation = id();
  insert('evaluation', {
    id: evaluation,
    litter_id: litter,
    sheet_id: sheet,
    frozen_sheet: JSON.stringify(shortSheet),
    name: `Day ${day}`,
    held_on: '2026-09-12',
    medium: 'table',
    call_link: '',
    call_number: '',
    table_note: '',
    phase: day === 1 ? 'deciding' : 'scoring',
    showing_order: JSON.stringify(puppies),
    table_showing_id: null,
    created_at: day,
    sealed_at: null,
  });
  for (const key of ['keep', 'companion']) insert('purpose', { evaluation_id: evaluation, key, weights: '{}' });
  insert('withdrawal', { evaluation_id: evaluation, puppy_id: puppies[2] ?? '', reason: 'not a fair day', at: 5 });
  for (const audience of ['all', 'seat:x'])
    insert('audience_version', { evaluation_id: evaluation, audience, version: 7 });
  const panel = fillPanel(fill, evaluation);
  const made: Made = { evaluation, puppies, ...panel };
  fillRound(fill, made, day === 1);
  if (day === 1) fillAfterReveal(fill, made);
}

function fillPanel({ insert, id }: Fill, evaluation: string): Pick<Made, 'seats' | 'devices' | 'slots'> {
  const seats = ['breeder', 'mentor'].map((label, position) => {
    const seat = {
      id: id(),
      evaluation_id: evaluation,
      position,
      label,
      kind: 'hands',
      leads: position === 0 ? 1 : 0,
      picks: 1,
      interest: '',
      owner: position === 0 ? 1 : 0,
    };
    insert('seat', seat);
    return seat.id;
  });
  const devices = seats.map((seat, place) => {
    const device = {
      id: id(),
      token_hash: id(),
      owner: place === 0 ? 1 : 0,
      seat_id: place === 0 ? null : seat,
      created_at: 3,
      revoked_at: null,
    };
    insert('device', device);
    insert('link', {
      token_hash: id(),
      kind: place === 0 ? 'owner' : 'seat',
      seat_id: place === 0 ? null : seat,
      created_at: 2,
      used_at: place === 0 ? null : 3,
    });
    return device.id;
  });
  const slots = seats.map((seat, position) => {
    const slot = {
      id: id(),
      evaluation_id: evaluation,
      position,
      taker: 'breeder',
      seat_id: seat,
      purpose: 'keep',
      sex: 'any',
      condition: '',
      by_when: '',
      if_fails: '',
    };
    insert('slot', slot);
    return slot.id;
  });
  return { seats, devices, slots };
}

function fillRound({ insert, id }: Fill, { evaluation, puppies, seats, devices }: Made, revealed: boolean): void {
  const round = id();
  insert('round', {
    id: round,
    evaluation_id: evaluation,
    position: 0,
    occasion: 'first',
    medium: 'table',
    state: revealed ? 'revealed' : 'open',
    opened_at: 10,
    closed_at: revealed ? 20 : null,
    revealed_at: revealed ? 21 : null,
  });
  const showings = puppies.map((puppy_id, place) => {
    const showing = { id: id(), round_id: round, puppy_id, place, repeat: 0 };
    insert('showing', showing);
    return showing.id;
  });
  for (const [place, seat_id] of seats.entries()) {
    insert('seat_round', { round_id: round, seat_id, locked_at: revealed ? 19 : null });
    for (const [position, subject] of showings.entries()) {
      const shared = {
        round_id: round,
        seat_id,
        device_id: devices[place] ?? '',
        subject,
        field: 'score:headProportion',
        value: 2 + position + place,
      };
      const body = JSON.stringify({
        kind: 'score',
        criterion: 'headProportion',
        value: shared.value,
        cannotJudge: false,
      });
      const entries = ['superseded', 'applied', 'late'].map((status, counter) => {
        const entry = {
          ...shared,
          id: id(),
          counter: status === 'late' ? 9 : counter + 1,
          body,
          status,
          made_at: 11,
          received_at: 12,
        };
        insert('entry', entry);
        return entry.id;
      });
      insert('answer', { ...shared, counter: 2, entry_id: entries[1] ?? '', body });
    }
  }
  if (revealed) insert('snapshot', { id: id(), round_id: round, body: '{"answers":[]}', revealed_at: 21 });
}

function fillAfterReveal({ insert, id }: Fill, { evaluation, puppies, seats, devices, slots }: Made): void {
  for (const key of ['one', 'two']) insert('result', { key, body: '{}', computed_at: 22 });
  for (const [position, slot_id] of slots.entries()) {
    const [batch, look] = [id(), id()];
    insert('look_batch', {
      id: batch,
      evaluation_id: evaluation,
      slot_id,
      position,
      state: 'revealed',
      opened_at: 23,
      revealed_at: 24,
    });
    insert('look', {
      id: look,
      batch_id: batch,
      position: 0,
      first_puppy_id: puppies[0] ?? '',
      second_puppy_id: puppies[1] ?? '',
      first_on_left: position,
      repeat: 0,
    });
    for (const [place, seat_id] of seats.entries()) {
      insert('look_answer', {
        id: id(),
        seq: place + 1,
        look_id: look,
        seat_id,
        device_id: devices[place] ?? '',
        choice: place === 0 ? 'first' : 'tie',
        criterion: null,
        made_at: 23,
        received_at: 24,
      });
    }
    const picked = position === 0;
    insert('decision', {
      id: id(),
      seq: position + 1,
      evaluation_id: evaluation,
      slot_id,
      outcome: picked ? 'picked' : 'nobody',
      puppy_id: picked ? (puppies[0] ?? '') : null,
      by: 'breeder',
      reason: 'in our own words',
      preference: 0,
      followed_panel: picked ? 1 : null,
      at: 30,
    });
    insert('clearance', {
      evaluation_id: evaluation,
      puppy_id: puppies[position] ?? '',
      check: 'bite',
      answer: 'looked at',
      by: 'a veterinarian',
      at: 29,
    });
    insert('discussion_note', {
      id: id(),
      evaluation_id: evaluation,
      seat_id: seats[0] ?? '',
      slot_id,
      puppy_id: puppies[0] ?? '',
      criterion: null,
      text: 'said aloud',
      at: 28,
    });
  }
}

function fillRecord({ insert }: Fill): void {
  let previous_hash = '';
  for (let seq = 1; seq <= 20; seq += 1) {
    const [at, actor, kind, body] = [seq, 'owner', 'evaluation-created', `line ${seq}`];
    const hash = createHash('sha256')
      .update(JSON.stringify([previous_hash, seq, null, at, actor, kind, body]))
      .digest('hex');
    insert('record', { seq, evaluation_id: null, at, actor, kind, body, previous_hash, hash });
    previous_hash = hash;
  }
}
