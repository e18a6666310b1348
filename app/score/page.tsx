import type { Metadata } from 'next';
import { ScoreRoute } from './ScoreRoute';

export const metadata: Metadata = { title: 'Score · Evenstack' };

export default function ScorePage() {
  return <ScoreRoute />;
}
