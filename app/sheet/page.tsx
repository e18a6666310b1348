import type { Metadata } from 'next';
import { Suspense } from 'react';
import { Loading } from '../_parts/Loading';
import { SheetRoute } from './SheetRoute';

export const metadata: Metadata = { title: 'Sheet · Evenstack' };

export default function SheetPage() {
  return (
    <Suspense fallback={<Loading what="the page" />}>
      <SheetRoute />
    </Suspense>
  );
}
