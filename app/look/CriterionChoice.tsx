import type { Criterion } from '#lib/sheet/criterion';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { views } from '#lib/sheet/view';
import { viewWords } from '../_parts/viewWords';

type CriterionChoiceProps = { readonly criteria: readonly Criterion[]; readonly chosen: string; readonly onChoose: (key: string) => void };

/** What decided it, if one thing did; grouped as one goes round a puppy. */
export function CriterionChoice({ criteria, chosen, onChoose }: CriterionChoiceProps) {
  return (
    <Field label="What decided it (if one thing did)">
      {(ids) => (
        <select {...ids} className={fieldStyles.control} value={chosen} onChange={(event) => onChoose(event.target.value)}>
          <option value="">No single thing</option>
          {views.map((view) => {
            const group = criteria.filter((criterion) => criterion.view === view);
            return group.length === 0 ? null : (
              <optgroup key={view} label={viewWords[view]}>
                {group.map(({ key, name }) => (
                  <option key={key} value={key}>
                    {name}
                  </option>
                ))}
              </optgroup>
            );
          })}
        </select>
      )}
    </Field>
  );
}
