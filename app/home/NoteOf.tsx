import type { HomeNote } from '#lib/contract/homeNote';
import { ageInDays } from '#lib/evaluation/ages';
import { homeChecksSentence } from '#lib/evaluation/checksMade';
import { choiceWords } from '#lib/evaluation/holdsOf';
import { structureAlone } from '#lib/sheet/cautions';
import { CautionNote } from '../_parts/CautionNote';
import { CollarChip } from '../_parts/CollarChip';
import { purposeWords } from '../_parts/textWords';
import { dayWords, momentWords } from '../_parts/timeWords';
import styles from './home.module.css';

/** One puppy's note, as its home reads it and as its breeder sees it before; one page on paper. */
export function NoteOf({ note }: { readonly note: HomeNote }) {
  return (
    <div className={`stack gap-28 ${styles.note}`}>
      <WhoItIs note={note} />
      <ForTheSurgeon note={note} />
      <WhatCameOut note={note} />
      <section className="stack gap-6">
        <h2>When to look again</h2>
        <p>{note.lookAgain.map(({ key, day }) => `${againWords[key]}: ${dayWords(day)}`).join(' · ')}.</p>
        <p>
          Tell the breeder how the puppy has turned out then: nothing else shows whether an eye at that age was right.
        </p>
      </section>
      <div className={styles.cautions}>
        <CautionNote caution="not-veterinary" />
        <CautionNote caution="hereditary" />
        <CautionNote caution="early-days" />
        <CautionNote caution="local-law" />
      </div>
    </div>
  );
}

const againWords = {
  'twelve-weeks': 'Twelve weeks',
  'six-months': 'Six months',
  'twelve-months': 'Twelve months',
  'two-years': 'Two years',
} as const;

function WhoItIs({ note }: { readonly note: HomeNote }) {
  const { puppy, purpose, picture } = note;
  return (
    <section className={styles.who}>
      <div className="stack gap-6">
        <p className="lead">
          Whelped on {dayWords(note.whelpedOn)}, looked over on {dayWords(note.seenOn)} at{' '}
          {ageInDays(note.whelpedOn, note.seenOn)} days
          {purpose === null ? '' : `, and chosen as ${purposeWords[purpose]}`}.
        </p>
        <p>
          <CollarChip collar={puppy.collar} />
          {puppy.secondMark === '' ? '' : `; second mark: ${puppy.secondMark}`}
          {note.chipDigits === '' ? '' : `; chip ends in ${note.chipDigits}`}
          {note.weight === null ? '' : `; ${note.weight.grams} g on ${dayWords(note.weight.day)}`}
        </p>
        {note.contact === '' ? null : <p>Breeder: {note.contact}</p>}
      </div>
      {picture === null ? null : <img src={picture} alt={puppy.name} className={styles.picture} />}
    </section>
  );
}

/** What was found, by hand and in the scores, what was not looked at, and what a veterinary surgeon has said. */
function ForTheSurgeon({ note }: { readonly note: HomeNote }) {
  const { findings, normal, unexamined, toShow } = note;
  return (
    <section className="stack gap-6">
      <h2>For your veterinary surgeon</h2>
      <p>{homeChecksSentence({ found: findings.length, normal: normal.length, unexamined: unexamined.length })}</p>
      <ul className="list topped lined unless-empty">
        {findings.map((finding) => (
          <li key={finding.check} className={`stack gap-2 ${styles.row}`}>
            <span>
              <b>{finding.check}</b>: {finding.answers.join('; ')}
            </span>
            <SaidToFinding said={finding.said} />
          </li>
        ))}
        {toShow.map(({ criterion, words }) => (
          <li key={criterion} className={`stack gap-2 ${styles.row}`}>
            <span>
              <b>{criterion}</b>, in the middle of the panel’s scores: {words}
            </span>
            <span className="small">Read off the scores, not examined. Show it to a veterinary surgeon.</span>
          </li>
        ))}
      </ul>
      {normal.length === 0 ? null : <p>Examined, nothing found: {normal.join(', ')}.</p>}
      {unexamined.length === 0 ? null : <p>Examined by nobody: {unexamined.join(', ')}.</p>}
      {note.later.map(({ id, check, choice, text, at }) => (
        <p key={id}>
          <b>Added later</b>, {momentWords(at)}:{' '}
          {check === null ? 'corrected' : `${check}, veterinary answer, ${choiceWords(choice, dayWords)}`}:{' '}
          <span className="asWritten">{text}</span>
        </p>
      ))}
      <p className="small">These are answers of breeders and their guests, not of a veterinary surgeon.</p>
    </section>
  );
}

function SaidToFinding({ said }: { readonly said: HomeNote['findings'][number]['said'] }) {
  if (said.length === 0) return <span className="small">No veterinary answer is recorded.</span>;
  return said.toReversed().map(({ answer, at, choice }, place) => (
    <span key={`${at} ${said.length - place}`} className="small">
      {place === 0 ? 'Veterinary answer' : 'Superseded'}, written down {momentWords(at)},{' '}
      {choiceWords(choice, dayWords)}: “{answer}”
    </span>
  ));
}

function WhatCameOut({ note }: { readonly note: HomeNote }) {
  const { strengths, behaviour, puppy } = note;
  return (
    <section className="stack gap-6">
      <h2>What stood out</h2>
      {strengths.length === 0 ? (
        <p>Nothing stood out in the panel’s scores.</p>
      ) : (
        <ul className="stack points gap-2">
          {strengths.map(({ criterion, words }) => (
            <li key={criterion}>
              <b>{criterion}</b>: {words}
            </li>
          ))}
        </ul>
      )}
      {behaviour.map(({ id, text, by, at }) => (
        <p key={id}>
          <b>How {puppy.name} behaves</b>: <span className="asWritten">{text}</span>{' '}
          <span className="small">
            ({by}, written down {momentWords(at)})
          </span>
        </p>
      ))}
      <p className="small">{structureAlone}</p>
    </section>
  );
}
