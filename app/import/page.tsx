import { Suspense } from 'react';
import { Loading } from '../_parts/Loading';
import { ImportRoute } from './ImportRoute';

export default function ImportPage() {
  return (
    <Suspense fallback={<Loading what="the page" />}>
      <ImportRoute />
    </Suspense>
  );
}
