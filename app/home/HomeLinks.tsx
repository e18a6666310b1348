'use client';

import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import type { HomeAlong } from '#lib/contract/homeNote';
import { shots } from '#lib/photo/shot';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { LinkAddress } from '../setup/LinkAddress';
import { NoteOf } from './NoteOf';
import { ShownHomeLink } from './ShownHomeLink';
import styles from './home.module.css';

type HomeLinksProps = { readonly id: string; readonly puppies: readonly PuppyFace[] };

/** For the owner, once the record is sealed: a link for each puppy's home to its own note, with what she lets go along. */
export function HomeLinks({ id, puppies }: HomeLinksProps) {
  const trpc = useTRPC();
  const [address, setAddress] = useState<string | null>(null);
  const [contact, setContact] = useState('');
  const linked = useQuery(trpc.home.list.queryOptions({ id }));
  return (
    <section className="stack gap-12 unprinted" aria-labelledby="homes">
      <h2 id="homes">Notes for homes</h2>
      <p>
        Each home gets its own puppy’s note: what was found on it, what nobody examined, what stood out, and when to
        look again. No score, and nothing of its littermates.
      </p>
      <LinkAddress address={address} onChange={setAddress} />
      <FieldText
        label="How homes reach you"
        hint="Only if you want it on the notes you make links for: a name, a number, an address."
        value={contact}
        onChange={setContact}
        maxLength={160}
      />
      <Refusal error={linked.error} />
      <ul className="list topped lined unless-empty">
        {puppies
          .filter((puppy) => !puppy.withdrawn)
          .map((puppy) => (
            <HomeLine
              key={puppy.id}
              id={id}
              puppy={puppy}
              linked={linked.data?.some((one) => one.puppyId === puppy.id) ?? false}
              contact={contact}
              address={address}
            />
          ))}
      </ul>
    </section>
  );
}

type HomeLineProps = {
  readonly id: string;
  readonly puppy: PuppyFace;
  readonly linked: boolean;
  readonly contact: string;
  readonly address: string | null;
};

const noPicture = 'none';

function HomeLine({ id, puppy, linked, contact, address }: HomeLineProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const onSuccess = () => queries.invalidateQueries();
  const [photo, setPhoto] = useState(noPicture);
  const make = useMutation(trpc.home.link.mutationOptions({ onSuccess }));
  const end = useMutation(
    trpc.home.end.mutationOptions({
      onSuccess: () => {
        make.reset();
        return onSuccess();
      },
    }),
  );
  const ids = { id, puppyId: puppy.id };
  const along: HomeAlong = { contact, photoId: photo === noPicture ? null : photo };
  return (
    <li className={`stack gap-6 ${styles.row}`}>
      <b>{puppy.name}</b>
      {make.data && linked ? (
        <ShownHomeLink name={puppy.name} link={`${address ?? window.location.origin}/home#${make.data.token}`} />
      ) : null}
      <Refusal error={make.error ?? end.error} />
      <PictureChoice {...ids} name={puppy.name} value={photo} onChange={setPhoto} />
      <div className="tools">
        <Button
          tone="quiet"
          busy={make.isPending}
          aria-label={`${linked ? 'Make a fresh link' : 'Make a link'} for ${puppy.name}’s home`}
          onClick={() => make.mutate({ ...ids, along })}
        >
          {linked ? 'Make a fresh link' : 'Make a link'}
        </Button>
        {linked ? (
          <Button
            tone="quiet"
            busy={end.isPending}
            aria-label={`End the link of ${puppy.name}’s home`}
            onClick={() => end.mutate(ids)}
          >
            End its link
          </Button>
        ) : null}
      </div>
      <Disclosure lazy words={`See ${puppy.name}’s note as its home does`}>
        <Preview {...ids} along={along} />
      </Disclosure>
    </li>
  );
}

type PictureChoiceProps = {
  readonly id: string;
  readonly puppyId: string;
  readonly name: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
};

/** One picture may leave with the note, by the owner's choice alone; nothing is asked where there is none. */
function PictureChoice({ id, puppyId, name, value, onChange }: PictureChoiceProps) {
  const trpc = useTRPC();
  const pictures =
    useQuery(trpc.photo.list.queryOptions({ id })).data?.photos.filter(
      (one) => one.puppyId === puppyId && one.kind === 'picture',
    ) ?? [];
  if (pictures.length === 0) return null;
  const options = pictures.map((one) => ({
    key: one.id,
    words: `${shots[one.view].name}${one.keeper ? ', the keeper' : ''}`,
  }));
  return (
    <FieldChoice
      label={`Picture on ${name}’s note`}
      hint="No person, and no other puppy, should be in it."
      value={value}
      options={[{ key: noPicture, words: 'No picture leaves' }, ...options]}
      onChange={onChange}
    />
  );
}

type PreviewProps = { readonly id: string; readonly puppyId: string; readonly along: HomeAlong };

function Preview({ id, puppyId, along }: PreviewProps) {
  const trpc = useTRPC();
  // While somebody types how she is reached, what was shown stays.
  const note = useQuery({
    ...trpc.home.preview.queryOptions({ id, puppyId, along }),
    placeholderData: keepPreviousData,
  });
  if (!note.data) return <Refusal error={note.error} />;
  return (
    <div className={styles.preview}>
      <NoteOf note={note.data} />
    </div>
  );
}
