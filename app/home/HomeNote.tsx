'use client';

import { useQuery } from '@tanstack/react-query';
import { ageInDays } from '#lib/evaluation/ages';
import { homeChecksSentence } from '#lib/evaluation/checksMade';
import { choiceWords } from '#lib/evaluation/holdsOf';
import { structureAlone } from '#lib/sheet/cautions';
import type { HomeNote as Note } from '#lib/contract/homeNote';
import { useTRPCClient } from '../_data/trpc';
import { useLinkToken } from '../join/useArrive';
import { CautionNote } from '../_parts/CautionNote';
import { CollarChip } from '../_parts/CollarChip';
import { dayWords, momentWords } from '../_parts/timeWords';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { purposeWords } from '../_parts/textWords';
import { Refusal } from '../_parts/Refusal';
import styles from './home.module.css';

const tokenForm = /^[A-Za-z0-9_-]{20,100}$/;

/** One puppy's note, for its home; the link's secret stands after the # and goes to the server in a body. */
export function HomeNote() {
  const token = useLinkToken();
  const client = useTRPCClient();
  const whole = token !== null && tokenForm.test(token);
  const note = useQuery({ queryKey: ['home', token], queryFn: () => client.home.read.mutate({ token: token ?? '' }), enabled: whole });
  return (
    <>
      <PageHead title={note.data?.puppy.name ?? 'Note for a home'} facts={note.data ? factsLine(note.data) : ''} />
      <Page width="text">
        {token === null || note.isLoading ? <Loading what="the note" /> : null}
        {token !== null && !whole ? (
          <EmptyState title="This link is not complete">
            <p>The part after # is missing or cut short. Open the whole link as it was sent.</p>
          </EmptyState>
        ) : null}
        <Refusal error={note.error} words={note.error ? 'This link has been ended or replaced. Ask the breeder for a fresh one.' : null} />
        {note.data ? <NoteOf note={note.data} /> : null}
      </Page>
    </>
  );
}

function factsLine({ litterName, breed, puppy }: Note): string {
  return [litterName, breed, puppy.sex].filter((one) => one !== '').join(' · ');
}

const againWords = { 'twelve-weeks': 'Twelve weeks', 'six-months': 'Six months', 'twelve-months': 'Twelve months', 'two-years': 'Two years' } as const;

function NoteOf({ note }: { readonly note: Note }) {
  const { puppy, purpose, findings, normal, unexamined, lookAgain } = note;
  return (
    <>
      <section className="stack gap-12">
        <p className="lead">
          Whelped on {dayWords(note.whelpedOn)}, looked over on {dayWords(note.seenOn)} at {ageInDays(note.whelpedOn, note.seenOn)} days
          {purpose === null ? '' : `, and chosen as ${purposeWords[purpose]}`}.
        </p>
        <p>
          <CollarChip collar={puppy.collar} />
          {puppy.secondMark === '' ? '' : `; second mark: ${puppy.secondMark}`}
          {note.chipDigits === '' ? '' : `; chip ends in ${note.chipDigits}`}
          {note.weight === null ? '' : `; ${note.weight.grams} g on ${dayWords(note.weight.day)}`}
        </p>
      </section>
      <section className="stack gap-12">
        <h2>For your veterinary surgeon</h2>
        <p>{homeChecksSentence({ found: findings.length, normal: normal.length, unexamined: unexamined.length })}</p>
        <ul className="list topped lined unless-empty">
          {findings.map(({ check, answers, said }) => (
            <li key={check} className={`stack gap-2 ${styles.row}`}>
              <b>{check}</b>
              <span>{answers.join('; ')}</span>
              {said.length === 0 ? <span className="small">No veterinary answer is recorded.</span> : null}
              {said.toReversed().map(({ answer, at, choice }, place) => (
                <span key={`${at} ${said.length - place}`} className="small">
                  {place === 0 ? 'Veterinary answer' : 'Superseded'}, written down {momentWords(at)}, {choiceWords(choice, dayWords)}: “{answer}”
                </span>
              ))}
            </li>
          ))}
        </ul>
        {normal.length === 0 ? null : <p>Examined, nothing found: {normal.join(', ')}.</p>}
        {unexamined.length === 0 ? null : <p>Examined by nobody: {unexamined.join(', ')}.</p>}
        <p className="small">These are answers of breeders and their guests, not of a veterinary surgeon. {structureAlone}</p>
      </section>
      {note.behaviour.length === 0 ? null : (
        <section className="stack gap-12">
          <h2>How {puppy.name} behaves</h2>
          {note.behaviour.map(({ id, text, by, at }) => (
            <p key={id}>
              <span className="asWritten">{text}</span> <span className="small">({by}, written down {momentWords(at)})</span>
            </p>
          ))}
        </section>
      )}
      {note.later.length === 0 ? null : (
        <section className="stack gap-12">
          <h2>Added later</h2>
          {note.later.map(({ id, check, choice, text, at }) => (
            <p key={id}>
              {check === null ? 'Corrected' : `${check}, veterinary answer, ${choiceWords(choice, dayWords)}`}: <span className="asWritten">{text}</span> <span className="small">({momentWords(at)})</span>
            </p>
          ))}
        </section>
      )}
      <section className="stack gap-12">
        <h2>When to look again</h2>
        <ul className="list topped lined unless-empty">
          {lookAgain.map(({ key, day }) => (
            <li key={key} className={`stack gap-2 ${styles.row}`}>
              <b>{againWords[key]}</b>
              <span className="figures">{dayWords(day)}</span>
            </li>
          ))}
        </ul>
        <p>Tell the breeder how the puppy has turned out then: nothing else shows whether an eye at eight weeks was right.</p>
      </section>
      <CautionNote caution="not-veterinary" />
      <CautionNote caution="hereditary" />
      <CautionNote caution="early-days" />
      <CautionNote caution="privacy" />
    </>
  );
}
