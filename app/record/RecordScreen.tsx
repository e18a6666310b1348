'use client';

import { useQuery } from '@tanstack/react-query';
import type { RecordEntry } from '#lib/contract/decisionView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { RecordKind } from '#lib/proof/recordKinds';
import { useTRPC } from '../_data/trpc';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { facesOf } from '../_evaluation/facesOf';
import { Button } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { DataTable } from '../_parts/DataTable';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { counted, seatKindWords } from '../_parts/textWords';
import { dayWords, momentWords } from '../_parts/timeWords';
import { HomeLinks } from '../home/HomeLinks';
import { FactsOfRecord, type RecordProps } from './FactsOfRecord';
import { FilesOfRecord } from './FilesOfRecord';
import { PicturesOfRecord } from './PicturesOfRecord';
import { RecordSection } from './RecordSection';
import { ResultOfRecord } from './ResultOfRecord';
import styles from './record.module.css';

/** Everything worth keeping of one evaluation on paper: prints on A4 and Letter. */
export function RecordScreen() {
  return (
    <EvaluationFrame here="record">
      <RecordOf />
    </EvaluationFrame>
  );
}

function RecordOf() {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const { data: entries, error } = useQuery(trpc.record.list.queryOptions({ id: evaluation.id }));
  if (!entries) return error === null ? <Loading what="the record" /> : <Refusal error={error} />;
  const props = { entries, faces: facesOf(evaluation) };
  return (
    <div className={`stack gap-36 ${styles.record}`}>
      <style>{pageHeads(evaluation)}</style>
      <div className="stack gap-6 unprinted">
        <Button tone="main" onClick={() => window.print()}>
          Print this record
        </Button>
        <p className="small">On A4 or Letter. To keep it as a PDF, choose “save as PDF” where the printer is chosen.</p>
        {evaluation.revealed ? (
          <OnThisPage sealed={evaluation.phase === 'sealed'} owner={evaluation.viewer.owner} />
        ) : null}
      </div>
      <FactsOfRecord {...props} />
      {evaluation.revealed ? (
        <ResultOfRecord {...props} />
      ) : (
        <p>The round is not revealed: there is no result yet, and nothing has been worked out.</p>
      )}
      <PanelOfRecord />
      <PicturesOfRecord />
      {evaluation.revealed ? <FilesOfRecord /> : null}
      {evaluation.phase === 'sealed' && evaluation.viewer.owner ? (
        <HomeLinks id={evaluation.id} puppies={evaluation.puppies} />
      ) : null}
      <section aria-labelledby="cautions" className={`stack gap-12 ${styles.cautions}`}>
        <h2 id="cautions">How to read this</h2>
        <p>
          This is what these people thought of these puppies on that day, each for itself, and what was decided on it.
        </p>
        <CautionNote caution="early-days" />
        <CautionNote caution="not-veterinary" />
        <CautionNote caution="hereditary" />
        <CautionNote caution="worth" />
      </section>
      <HappenedOfRecord {...props} />
    </div>
  );
}

const parts = [
  ['decisions', 'Decisions'],
  ['places', 'Why'],
  ['holds', 'Holds'],
  ['checks', 'Checks'],
  ['scores', 'Every score'],
  ['happened', 'What happened'],
] as const;

/** The record is long: ways to its parts, those of the owner first. */
function OnThisPage({ sealed, owner }: { readonly sealed: boolean; readonly owner: boolean }) {
  const own = sealed
    ? [...(owner ? [['homes', 'Notes for homes'] as const] : []), ['addenda', 'Added after the sealing'] as const]
    : [];
  return (
    <nav aria-label="On this page" className="wrap gap-8">
      {[...own, ...parts].map(([id, words]) => (
        <a key={id} href={`#${id}`} className={styles.jump}>
          {words}
        </a>
      ))}
    </nav>
  );
}

/** At the head of every printed page: what this is the record of, and its newest line. */
function pageHeads({ litterName, name, heldOn, head }: EvaluationView): string {
  const box = (place: string, words: string) => `@${place} { content: ${cssString(words)}; font: 9pt sans-serif; }`;
  return `@page { ${box('top-left', `${litterName} · ${name} · ${dayWords(heldOn)}`)} ${box('top-right', `record line ${head.seq}, ${hashHead(head.hash)}`)} }`;
}

/** Words as a CSS string that nothing typed can end. */
export function cssString(words: string): string {
  return `"${words.replaceAll(/[^\p{L}\p{N} .,·–-]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 0xfffd).toString(16)} `)}"`;
}

const stateWords = { invited: 'never joined', joined: 'not locked', locked: 'locked' } as const;

/** Who sat at the panel, what each seat could see and touch, and its declared interest. */
function PanelOfRecord() {
  const evaluation = useEvaluation();
  return (
    <RecordSection id="panel" title="Panel">
      <DataTable
        caption="Seats"
        heads={['Seat', 'Sees and touches', 'Declared interest', 'Card']}
        rows={evaluation.seats.map((seat) => ({
          key: seat.id,
          head: seat.owner ? `${seat.label} (owner)` : seat.label,
          cells: [
            seatKindWords[seat.kind],
            seat.interest === '' ? 'none declared' : seat.interest,
            seat.kind === 'none' ? 'does not score' : stateWords[seat.state],
          ],
        }))}
      />
    </RecordSection>
  );
}

/** What happened, in order, each line chained to the one before by its hash. */
function HappenedOfRecord({ entries }: RecordProps) {
  const { head, imported } = useEvaluation();
  const here = imported ? 1 : entries.length;
  return (
    <RecordSection id="happened" title="What happened">
      {imported ? (
        <p>
          {counted(entries.length - 1, 'line')} came with the file, with the hashes that another server’s record gave
          them; that record then ended with line {imported.head.seq},{' '}
          <code className="anywhere">{imported.head.hash}</code>. Lines about other matters of that server are not in
          the file: over such a gap a line is held by its own hash alone. The last line is of this server’s record, and
          binds all of them.
        </p>
      ) : null}
      <p>
        The newest line of this server’s record is line {head.seq}, <code className="anywhere">{head.hash}</code>;{' '}
        {counted(here, 'line')} of it {here === 1 ? 'is' : 'are'} about this evaluation.
      </p>
      <p>
        Each line carries a hash made from its words and the hash of the line before it on this server, so a line
        changed or taken out afterwards breaks the chain.
      </p>
      <DataTable
        caption="In order"
        heads={['When', 'Who', 'What', 'Hash']}
        rows={entries.map((entry) => ({
          // Numbers of two servers may meet.
          key: entry.hash,
          head: momentWords(entry.at),
          cells: [
            entry.actor,
            <span key="what" className="anywhere">
              {eventWords(entry)}
            </span>,
            <code key="hash">{hashHead(entry.hash)}</code>,
          ],
        }))}
      />
    </RecordSection>
  );
}

const words: Readonly<Record<RecordKind, string>> = {
  'evaluation-created': 'made the evaluation',
  'binding-begun': 'binds by hash what happens from here on',
  restored: 'restored a backup',
  'owner-signed-in': 'signed in',
  'owner-sessions-ended': 'ended other sessions of the owner',
  'passphrase-set': 'set the passphrase',
  'set-up-saved': 'saved the set-up',
  'seat-added': 'added a seat',
  'seat-changed': 'changed a seat',
  'seat-removed': 'removed a seat',
  'seat-joined': 'joined',
  'seat-locked': 'locked the card',
  'entries-sent-again': 'sent again what its device says had been acknowledged, and was missing here; entries',
  'link-made': 'made a link for a seat',
  'link-refused': 'tried another seat’s link or code and was refused',
  'code-made': 'made a spoken code for a seat',
  'device-let-in': 'let a further device in',
  'seat-reissued': 'issued a seat again',
  'seat-ended': 'ended the sessions of a seat',
  'words-removed': 'removed the words of a seat',
  'home-linked': 'made a link for the home of a puppy',
  'home-ended': 'ended the link of the home of a puppy',
  'pick-order-confirmed': 'agreed to the pick order',
  'second-round-opened': 'opened a second round',
  'round-opened': 'opened the round',
  'round-closed': 'closed the round',
  'round-reopened': 'reopened the round: locks and commitments before it are void',
  committed: 'is bound to its card by',
  'committed-unlocked': 'had not locked; the server bound its card by',
  'round-revealed': 'revealed the round',
  'card-moved': 'let two cards of the own seat change places after a collar swap',
  'card-typed': 'typed a card from paper, of',
  'paper-locked': 'locked the card that came on paper, of',
  'puppy-withdrawn': 'withdrew a puppy',
  'puppy-brought-back': 'brought back a withdrawn puppy',
  'came-late': 'keeps what came late to a revealed round',
  'look-opened': 'opened second looks',
  'look-closed': 'closed the second looks',
  'look-stopped': 'brought second looks back closed',
  decided: 'picked',
  'decision-taken-back': 'took back the last pick',
  'hold-cleared': 'recorded a veterinary answer',
  'hold-answered': 'recorded a veterinary answer',
  'behaviour-noted': 'noted how a puppy behaves',
  sealed: 'sealed the record',
  'addendum-written': 'added under the sealed record',
  imported: 'imported it from a file, after its record was checked',
};

/** One line of what happened, in words; of the hashes that it binds the beginnings. A kind this page does not know stays readable. */
function eventWords({ kind, detail }: Pick<RecordEntry, 'kind' | 'detail'>): string {
  const what = isKnown(kind) ? words[kind] : kind.replaceAll('-', ' ');
  return detail === '' ? what : `${what}: ${detail.replaceAll(/(?<=[a-zA-Z] )[0-9a-f]{64}(?=[,\]])/g, hashHead)}`;
}

const isKnown = (kind: string): kind is RecordKind => Object.hasOwn(words, kind);

/** Enough of a hash to compare two copies of a record by eye. */
function hashHead(hash: string): string {
  return hash.slice(0, 12);
}
