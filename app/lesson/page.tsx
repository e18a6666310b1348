import type { Metadata } from 'next';
import { LessonScreen } from './LessonScreen';

export const metadata: Metadata = { title: 'Lesson · Evenstack' };

export default function LessonPage() {
  return <LessonScreen />;
}
