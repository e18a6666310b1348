import type { Metadata } from 'next';
import { PaperScreen } from './PaperScreen';

export const metadata: Metadata = { title: 'Paper sheets · Evenstack' };

export default function PaperPage() {
  return <PaperScreen />;
}
