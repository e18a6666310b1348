import type { Metadata } from 'next';
import { PracticeScreen } from './PracticeScreen';

export const metadata: Metadata = { title: 'Practice · Evenstack' };

export default function PracticePage() {
  return <PracticeScreen />;
}
