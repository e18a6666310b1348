import { existsSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { hashToken } from '../random';
import type { OpenCopy } from './openCopy';
import { readVisitor, type Visitor } from './visitorFile';

/** A visitor of the demo. The copy is opened at the first request. */
export type Guest = {
  readonly folder: string;
  readonly visitor: Visitor;
  copy: OpenCopy | null /** When the visitor last asked for anything; 0 for never since entering. Of those read back it is not known, and the day of entering stands for it. */;
  seenAt: number /** Where it was asked for; null once the server has started anew. */;
  readonly address: string | null;
};

export type GuestBook = {
  all(): readonly Guest[];
  /** Whose copy a session belongs to, and whether the visitor holds it or a scripted seat. */
  find(secret: string): { readonly guest: Guest; readonly scripted: boolean } | undefined;
  add(folder: string, visitor: Visitor, address: string | null): void;
  /** Closes the copy, if it is open; it opens again at the next request. */
  close(guest: Guest): Promise<void>;
  /** Forgets the guest, closes the copy and deletes it. */
  remove(guest: Guest): Promise<void>;
};

/** Who is visiting, read back from the copies' folders after a restart; folders that hold no finished copy go. */
export function openGuestBook(folder: string): GuestBook {
  const guests = new Set<Guest>();
  const sessions = new Map<string, { readonly guest: Guest; readonly scripted: boolean }>();
  const book: GuestBook = {
    all: () => [...guests],
    find: (secret) => sessions.get(hashToken(secret)),
    add: (place, visitor, address) => {
      const guest: Guest = {
        folder: place,
        visitor,
        copy: null,
        seenAt: address === null ? visitor.enteredAt : 0,
        address,
      };
      guests.add(guest);
      for (const { secret } of visitor.cast) sessions.set(hashToken(secret), { guest, scripted: true });
      for (const { secret } of [visitor.open, visitor.sealed])
        sessions.set(hashToken(secret), { guest, scripted: false });
    },
    close: async (guest) => {
      const { copy } = guest;
      guest.copy = null;
      await copy?.close();
    },
    remove: async (guest) => {
      guests.delete(guest);
      for (const [hash, session] of sessions) if (session.guest === guest) sessions.delete(hash);
      await book.close(guest);
      rmSync(guest.folder, { recursive: true, force: true });
    },
  };
  for (const { place, visitor } of foldersBelow(folder)) {
    if (visitor) book.add(place, visitor, null);
    else rmSync(place, { recursive: true, force: true });
  }
  return book;
}

function foldersBelow(folder: string): { readonly place: string; readonly visitor: Visitor | null }[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true })
    .filter((one) => one.isDirectory())
    .map(({ name }) => ({ place: join(folder, name), visitor: readVisitor(join(folder, name)) }));
}
