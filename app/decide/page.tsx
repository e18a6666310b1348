import type { Metadata } from 'next';
import { DecideScreen } from './DecideScreen';

export const metadata: Metadata = { title: 'Decision · Evenstack' };

export default function DecidePage() {
  return <DecideScreen />;
}
