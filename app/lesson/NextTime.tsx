import type { LessonView } from '#lib/contract/lesson';
import type { Faces } from '../board/facesOf';
import styles from './Lesson.module.css';

/** What to look at next time: the sheet's own words on those criteria. */
export function NextTime({ lesson, faces }: { readonly lesson: LessonView; readonly faces: Faces }) {
  return (
    <section aria-labelledby="next-time" className={styles.part}>
      <h2 id="next-time">Next time, look at</h2>
      {lesson.lookAt.length === 0 ? <p>Nothing stands out. Score the next litter the same way.</p> : null}
      {lesson.lookAt.map((key) => {
        const criterion = faces.criterion(key);
        if (!criterion) return null;
        return (
          <article key={key} className={styles.criterion}>
            <h3>{criterion.name}</h3>
            <p>{criterion.why}</p>
            <p>
              {criterion.twoSided ? `As asked: ${criterion.anchors.asked}` : `High: ${criterion.anchors.high}`}
            </p>
            <p className="small">{criterion.steadiness.note}</p>
          </article>
        );
      })}
    </section>
  );
}
