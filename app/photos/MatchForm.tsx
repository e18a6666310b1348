'use client';

import { useState } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { type Match, shotKeys, shots } from '#lib/photo/shot';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldTick } from '../_parts/FieldTick';

type Props = {
  readonly puppies: readonly PuppyFace[];
  readonly match: Match;
  readonly words: string;
  readonly onMatch: (match: Match, onwards: boolean) => void;
  /** Offers to carry on from here with the pictures after it. */
  readonly mayGoOn?: boolean;
};

/** Whose picture it is, and from where. */
export function MatchForm({ puppies, match, words, onMatch, mayGoOn = false }: Props) {
  const [puppyId, setPuppy] = useState(match.puppyId);
  const [view, setView] = useState(match.view);
  const [onwards, goOn] = useState(mayGoOn);
  return (
    <div className="stack starts gap-10">
      <FieldChoice
        label="Puppy"
        value={puppyId}
        options={puppies.map(({ id, name }) => ({ key: id, words: name }))}
        onChange={setPuppy}
      />
      <FieldChoice
        label="View"
        value={view}
        options={shotKeys.map((key) => ({ key, words: shots[key].name }))}
        onChange={setView}
      />
      {mayGoOn ? <FieldTick label="The pictures after it go on from here" ticked={onwards} onChange={goOn} /> : null}
      <Button tone="main" onClick={() => onMatch({ puppyId, view }, onwards)}>
        {words}
      </Button>
    </div>
  );
}
