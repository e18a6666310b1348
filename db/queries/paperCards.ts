import { asc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { paperCard } from '../schema/entries';

type PaperCard = {
  readonly id: string;
  readonly roundId: string;
  readonly seatId: string;
  readonly showingId: string;
  readonly deviceId: string;
  readonly answers: number;
  readonly at: number;
};

/** That a card was typed from paper; its entries are kept beside, like all. */
export function insertPaperCard(db: Db, row: PaperCard): void {
  db.insert(paperCard).values(row).run();
}

/** Whether a card was typed under this id already (SC2). */
export function hasPaperCard(db: Db, id: string): boolean {
  return db.select({ id: paperCard.id }).from(paperCard).where(eq(paperCard.id, id)).get() !== undefined;
}

/** Which cards of a round were typed from paper, oldest first: of one showing the last counts. Holds no answer. */
export function listPaperCards(db: Db, roundId: string) {
  return db
    .select({ seatId: paperCard.seatId, showingId: paperCard.showingId, answers: paperCard.answers, at: paperCard.at })
    .from(paperCard)
    .where(eq(paperCard.roundId, roundId))
    .orderBy(asc(paperCard.seq))
    .all();
}
