import type { Entry, EntryOutcome } from '#lib/contract/entry';
import type { SeededRandom } from '#lib/stats/seededRandom';
import type { Day } from '#tests/support/makeDay';
import type { EventQueue } from './eventQueue';
import type { SimulatedDevice } from './simulatedDevice';
import type { SimulatedServer } from './simulatedServer';

/** What became of one edit, as the people were told. */
export type EditStory = {
  readonly entry: Entry;
  readonly device: SimulatedDevice;
  /** Told that it is on the device. */
  promised: boolean;
  /** Told that the server has it, and as what. */
  acknowledged: EntryOutcome['status'] | null;
};

/** What a schedule went through: a simulation that never meets what it is about shows nothing. */
export type Met = {
  edits: number;
  lost: number;
  repeated: number;
  late: number;
  superseded: number;
  crashes: number;
  reopened: number;
  revealed: number;
  restored: number;
  again: number;
};

export type Story = {
  readonly server: SimulatedServer;
  readonly devices: readonly SimulatedDevice[];
  readonly edits: ReadonlyMap<string, EditStory>;
  /** Whether the round was open to the seat when an entry first reached the server. */
  readonly openOnArrival: ReadonlyMap<string, boolean>;
  /** Whether the server was ever restored from a backup. */
  readonly restored: boolean;
};

/** Everything a schedule plays with. */
export type World = {
  readonly day: Day;
  readonly random: SeededRandom;
  readonly queue: EventQueue;
  readonly server: SimulatedServer;
  readonly edits: Map<string, EditStory>;
  readonly openOnArrival: Map<string, boolean>;
  arrived: Set<string>;
  readonly faults: Set<string>;
  /** Of the server's history as far as it was looked at: seat, register, counter and what was said. */
  kept: { seen: number; readonly edits: Set<string> };
  readonly met: Met;
  devices: SimulatedDevice[];
  /** False once all is to settle: nothing is lost or delayed for long any more. */
  rough: boolean;
  round: 'open' | 'closed' | 'revealed';
  locked: Set<string>;
  made: number;
};
