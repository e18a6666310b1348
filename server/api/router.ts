import { router } from './trpc';
import { addNote as boardAddNote } from './board/addNote';
import { askToSpeak as boardAskToSpeak } from './board/askToSpeak';
import { coefficients as boardCoefficients } from './board/coefficients';
import { commitments as boardCommitments } from './board/commitments';
import { get as boardGet } from './board/get';
import { hands as boardHands } from './board/hands';
import { notes as boardNotes } from './board/notes';
import { importScores as cardImportScores } from './card/importScores';
import { lock as cardLock } from './card/lock';
import { mine as cardMine } from './card/mine';
import { move as cardMove } from './card/move';
import { previewImport as cardPreviewImport } from './card/previewImport';
import { submit as cardSubmit } from './card/submit';
import { clearHold as decisionClearHold } from './decision/clearHold';
import { get as decisionGet } from './decision/get';
import { make as decisionMake } from './decision/make';
import { seal as decisionSeal } from './decision/seal';
import { takeBack as decisionTakeBack } from './decision/takeBack';
import { enter as demoEnter } from './demo/enter';
import { get as demoGet } from './demo/get';
import { playToReveal as demoPlayToReveal } from './demo/playToReveal';
import { sitIn as demoSitIn } from './demo/sitIn';
import { closeRound as evaluationCloseRound } from './evaluation/closeRound';
import { get as evaluationGet } from './evaluation/get';
import { list as evaluationList } from './evaluation/list';
import { moveTable as evaluationMoveTable } from './evaluation/moveTable';
import { openRound as evaluationOpenRound } from './evaluation/openRound';
import { openSecondRound as evaluationOpenSecondRound } from './evaluation/openSecondRound';
import { reopenRound as evaluationReopenRound } from './evaluation/reopenRound';
import { revealRound as evaluationRevealRound } from './evaluation/revealRound';
import { bringBackPuppy as evaluationBringBackPuppy } from './evaluation/bringBackPuppy';
import { withdrawPuppy as evaluationWithdrawPuppy } from './evaluation/withdrawPuppy';
import { end as homeEnd } from './home/end';
import { link as homeLink } from './home/link';
import { list as homeList } from './home/list';
import { read as homeRead } from './home/read';
import { get as lessonGet } from './lesson/get';
import { progress as lessonProgress } from './lesson/progress';
import { get as litterGet } from './litter/get';
import { list as litterList } from './litter/list';
import { save as litterSave } from './litter/save';
import { savePuppy as litterSavePuppy } from './litter/savePuppy';
import { saveWeight as litterSaveWeight } from './litter/saveWeight';
import { answer as lookAnswer } from './look/answer';
import { close as lookClose } from './look/close';
import { list as lookList } from './look/list';
import { open as lookOpen } from './look/open';
import { propose as lookPropose } from './look/propose';
import { get as ownerGet } from './owner/get';
import { setPassphrase as ownerSetPassphrase } from './owner/setPassphrase';
import { mine as personMine } from './person/mine';
import { remove as personRemove } from './person/remove';
import { get as practiceGet } from './practice/get';
import { lock as practiceLock } from './practice/lock';
import { hashAt as recordHashAt } from './record/hashAt';
import { confirmFigure as photoConfirmFigure } from './photo/confirmFigure';
import { figures as photoFigures } from './photo/figures';
import { keep as photoKeep } from './photo/keep';
import { list as photoList } from './photo/list';
import { marks as photoMarks } from './photo/marks';
import { measure as photoMeasure } from './photo/measure';
import { place as photoPlace } from './photo/place';
import { point as photoPoint } from './photo/point';
import { remove as photoRemove } from './photo/remove';
import { saveList as photoSaveList } from './photo/saveList';
import { setFair as photoSetFair } from './photo/setFair';
import { unpoint as photoUnpoint } from './photo/unpoint';
import { list as recordList } from './record/list';
import { answerDevice as sessionAnswerDevice } from './session/answerDevice';
import { devices as sessionDevices } from './session/devices';
import { endDevice as sessionEndDevice } from './session/endDevice';
import { furtherCode as sessionFurtherCode } from './session/furtherCode';
import { join as sessionJoin } from './session/join';
import { joinByCode as sessionJoinByCode } from './session/joinByCode';
import { leave as sessionLeave } from './session/leave';
import { me as sessionMe } from './session/me';
import { signIn as sessionSignIn } from './session/signIn';
import { confirmPickOrder as setupConfirmPickOrder } from './setup/confirmPickOrder';
import { create as setupCreate } from './setup/create';
import { endSeat as setupEndSeat } from './setup/endSeat';
import { get as setupGet } from './setup/get';
import { invite as setupInvite } from './setup/invite';
import { reissue as setupReissue } from './setup/reissue';
import { removeSeat as setupRemoveSeat } from './setup/removeSeat';
import { save as setupSave } from './setup/save';
import { saveSeat as setupSaveSeat } from './setup/saveSeat';
import { spokenCode as setupSpokenCode } from './setup/spokenCode';
import { get as sheetGet } from './sheet/get';
import { list as sheetList } from './sheet/list';
import { save as sheetSave } from './sheet/save';
import { get as storageGet } from './storage/get';

/** Every procedure the app has; tests list them from here, so that a new one is covered at birth. */
export const appRouter = router({
  board: router({
    addNote: boardAddNote,
    askToSpeak: boardAskToSpeak,
    coefficients: boardCoefficients,
    commitments: boardCommitments,
    get: boardGet,
    hands: boardHands,
    notes: boardNotes,
  }),
  card: router({
    importScores: cardImportScores,
    lock: cardLock,
    mine: cardMine,
    move: cardMove,
    previewImport: cardPreviewImport,
    submit: cardSubmit,
  }),
  decision: router({
    clearHold: decisionClearHold,
    get: decisionGet,
    make: decisionMake,
    seal: decisionSeal,
    takeBack: decisionTakeBack,
  }),
  demo: router({
    enter: demoEnter,
    get: demoGet,
    playToReveal: demoPlayToReveal,
    sitIn: demoSitIn,
  }),
  evaluation: router({
    bringBackPuppy: evaluationBringBackPuppy,
    closeRound: evaluationCloseRound,
    get: evaluationGet,
    list: evaluationList,
    moveTable: evaluationMoveTable,
    openRound: evaluationOpenRound,
    openSecondRound: evaluationOpenSecondRound,
    reopenRound: evaluationReopenRound,
    revealRound: evaluationRevealRound,
    withdrawPuppy: evaluationWithdrawPuppy,
  }),
  home: router({
    end: homeEnd,
    link: homeLink,
    list: homeList,
    read: homeRead,
  }),
  lesson: router({
    get: lessonGet,
    progress: lessonProgress,
  }),
  litter: router({
    get: litterGet,
    list: litterList,
    save: litterSave,
    savePuppy: litterSavePuppy,
    saveWeight: litterSaveWeight,
  }),
  look: router({
    answer: lookAnswer,
    close: lookClose,
    list: lookList,
    open: lookOpen,
    propose: lookPropose,
  }),
  owner: router({
    get: ownerGet,
    setPassphrase: ownerSetPassphrase,
  }),
  person: router({
    mine: personMine,
    remove: personRemove,
  }),
  photo: router({
    confirmFigure: photoConfirmFigure,
    figures: photoFigures,
    keep: photoKeep,
    list: photoList,
    marks: photoMarks,
    measure: photoMeasure,
    place: photoPlace,
    point: photoPoint,
    remove: photoRemove,
    saveList: photoSaveList,
    setFair: photoSetFair,
    unpoint: photoUnpoint,
  }),
  practice: router({
    get: practiceGet,
    lock: practiceLock,
  }),
  record: router({
    hashAt: recordHashAt,
    list: recordList,
  }),
  session: router({
    answerDevice: sessionAnswerDevice,
    devices: sessionDevices,
    endDevice: sessionEndDevice,
    furtherCode: sessionFurtherCode,
    join: sessionJoin,
    joinByCode: sessionJoinByCode,
    leave: sessionLeave,
    me: sessionMe,
    signIn: sessionSignIn,
  }),
  setup: router({
    confirmPickOrder: setupConfirmPickOrder,
    create: setupCreate,
    endSeat: setupEndSeat,
    get: setupGet,
    invite: setupInvite,
    reissue: setupReissue,
    removeSeat: setupRemoveSeat,
    save: setupSave,
    saveSeat: setupSaveSeat,
    spokenCode: setupSpokenCode,
  }),
  sheet: router({
    get: sheetGet,
    list: sheetList,
    save: sheetSave,
  }),
  storage: router({
    get: storageGet,
  }),
});

export type AppRouter = typeof appRouter;
