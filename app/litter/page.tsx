import type { Metadata } from 'next';
import { Suspense } from 'react';
import { Loading } from '../_parts/Loading';
import { LitterRoute } from './LitterRoute';

export const metadata: Metadata = { title: 'Litter · Evenstack' };

export default function LitterPage() {
  return (
    <Suspense fallback={<Loading what="the page" />}>
      <LitterRoute />
    </Suspense>
  );
}
