import { addendumRouter } from './addendum';
import { boardRouter } from './board';
import { cardRouter } from './card';
import { decisionRouter } from './decision';
import { demoRouter } from './demo';
import { evaluationRouter } from './evaluation';
import { homeRouter } from './home';
import { lessonRouter } from './lesson';
import { litterRouter } from './litter';
import { lookRouter } from './look';
import { ownerRouter } from './owner';
import { paperRouter } from './paper';
import { personRouter } from './person';
import { photoRouter } from './photo';
import { practiceRouter } from './practice';
import { recordRouter } from './record';
import { sessionRouter } from './session';
import { setupRouter } from './setup';
import { sheetRouter } from './sheet';
import { storageRouter } from './storage';
import { router } from './trpc';

/** Every procedure the app has; tests list them from here, so that a new one is covered at birth. */
export const appRouter = router({
  addendum: addendumRouter,
  board: boardRouter,
  card: cardRouter,
  decision: decisionRouter,
  demo: demoRouter,
  evaluation: evaluationRouter,
  home: homeRouter,
  lesson: lessonRouter,
  litter: litterRouter,
  look: lookRouter,
  owner: ownerRouter,
  paper: paperRouter,
  person: personRouter,
  photo: photoRouter,
  practice: practiceRouter,
  record: recordRouter,
  session: sessionRouter,
  setup: setupRouter,
  sheet: sheetRouter,
  storage: storageRouter,
});

export type AppRouter = typeof appRouter;
