import type { Metadata } from 'next';
import { Suspense } from 'react';
import { Loading } from '../_parts/Loading';
import { ImportRoute } from './ImportRoute';

export const metadata: Metadata = { title: 'Typed scores · Evenstack' };

export default function ImportPage() {
  return (
    <Suspense fallback={<Loading what="the page" />}>
      <ImportRoute />
    </Suspense>
  );
}
