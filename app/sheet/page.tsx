import { Suspense } from 'react';
import { Loading } from '../_parts/Loading';
import { SheetRoute } from './SheetRoute';

export default function SheetPage() {
  return (
    <Suspense fallback={<Loading what="the page" />}>
      <SheetRoute />
    </Suspense>
  );
}
