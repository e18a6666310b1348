'use client';

import { byView, type Criterion, views } from '#lib/sheet/criterion';
import { Button } from '../_parts/Button';
import { MoveButtons, moved } from '../_parts/MoveButtons';
import { viewWords } from '../_parts/textWords';
import { CriterionForm } from './CriterionForm';
import type { Faults } from './sheetFaults';
import styles from './sheet.module.css';

type CriterionListProps = {
  readonly criteria: readonly Criterion[];
  readonly faults: Faults;
  /** The criterion whose form is open, `new` for one being added. */
  readonly open: string | null;
  readonly onOpen: (key: string | null) => void;
  readonly onChange: (criteria: readonly Criterion[]) => void;
};

/** The criteria of a sheet being changed: in order within each view, each to be changed or taken out. */
export function CriterionList({ criteria, faults, open, onOpen, onChange }: CriterionListProps) {
  const ordered = byView(criteria);
  const keep = (kept: Criterion) => {
    const standing = ordered.some((one) => one.key === kept.key);
    onChange(byView(standing ? ordered.map((one) => (one.key === kept.key ? kept : one)) : [...ordered, kept]));
    onOpen(null);
  };
  const close = () => onOpen(null);
  const taken = ordered.map(({ key }) => key);
  const whole = faults.get('criteria');
  return (
    <section className="stack gap-12">
      <h2>Criteria</h2>
      {whole ? (
        <p role="alert" className="fault">
          {whole}
        </p>
      ) : null}
      {views.map((view) => (
        <ViewRows
          key={view}
          title={viewWords[view]}
          criteria={ordered.filter((one) => one.view === view)}
          open={open}
          taken={taken}
          onKeep={keep}
          onOpen={onOpen}
          onClose={close}
          onMove={(key, by) => onChange(moved(ordered, taken.indexOf(key), by))}
          onRemove={(key) => onChange(ordered.filter((one) => one.key !== key))}
        />
      ))}
      {open === 'new' ? (
        <CriterionForm criterion={null} taken={taken} onKeep={keep} onClose={close} />
      ) : (
        <div className="tools">
          <Button disabled={criteria.length >= 40} onClick={() => onOpen('new')}>
            Add a criterion
          </Button>
        </div>
      )}
    </section>
  );
}

type ViewRowsProps = {
  readonly title: string;
  readonly criteria: readonly Criterion[];
  readonly open: string | null;
  readonly taken: readonly string[];
  readonly onKeep: (criterion: Criterion) => void;
  readonly onOpen: (key: string) => void;
  readonly onClose: () => void;
  readonly onMove: (key: string, by: -1 | 1) => void;
  readonly onRemove: (key: string) => void;
};

function ViewRows({ title, criteria, open, taken, onKeep, onOpen, onClose, onMove, onRemove }: ViewRowsProps) {
  if (criteria.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      <ol className={`list topped lined ${styles.rows}`}>
        {criteria.map((criterion, place) => (
          <li key={criterion.key} className="wrap centred">
            <span className={styles.rowName}>
              {criterion.name}
              <span className="small">
                {' '}
                {[criterion.twoSided ? 'two-sided' : '', criterion.handsOnly ? 'by hand only' : '']
                  .filter((one) => one !== '')
                  .join(', ')}
              </span>
            </span>
            <MoveButtons
              name={criterion.name}
              first={place === 0}
              last={place === criteria.length - 1}
              onMove={(by) => onMove(criterion.key, by)}
            />
            <Button tone="quiet" aria-label={`Change ${criterion.name}`} onClick={() => onOpen(criterion.key)}>
              Change
            </Button>
            <Button tone="quiet" aria-label={`Remove ${criterion.name}`} onClick={() => onRemove(criterion.key)}>
              Remove
            </Button>
            {open === criterion.key ? (
              <CriterionForm criterion={criterion} taken={taken} onKeep={onKeep} onClose={onClose} />
            ) : null}
          </li>
        ))}
      </ol>
    </>
  );
}
