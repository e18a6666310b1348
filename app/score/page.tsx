import type { Metadata } from 'next';
import { Suspense } from 'react';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { ScoreRoute } from './ScoreRoute';

export const metadata: Metadata = { title: 'Score · Evenstack' };

export default function ScorePage() {
  return (
    <Suspense
      fallback={
        <Page width="text">
          <Loading what="the evaluation" />
        </Page>
      }
    >
      <ScoreRoute />
    </Suspense>
  );
}
