import type { Metadata } from 'next';
import { Suspense } from 'react';
import { Loading } from '../_parts/Loading';
import { SetupRoute } from './SetupRoute';

export const metadata: Metadata = { title: 'Set-up · Evenstack' };

export default function SetupPage() {
  return (
    <Suspense fallback={<Loading what="the page" />}>
      <SetupRoute />
    </Suspense>
  );
}
