import type { Metadata } from 'next';
import { HomeNote } from './HomeNote';

export const metadata: Metadata = { title: 'Note for a home · Evenstack' };

export default function HomeNotePage() {
  return <HomeNote />;
}
