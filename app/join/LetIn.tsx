'use client';

import { useRouter } from 'next/navigation';
import { useEffect } from 'react';
import type { SessionView } from '#lib/contract/sessionView';
import { Loading } from '../_parts/Loading';
import { homeOf } from './homeOf';

/** The first device has said yes: on to where this place belongs. */
export function LetIn({ me }: { readonly me: SessionView }) {
  const router = useRouter();
  const place = homeOf(me);
  useEffect(() => router.replace(place), [place, router]);
  return <Loading what="your place" />;
}
