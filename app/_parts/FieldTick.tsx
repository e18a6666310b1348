'use client';

import styles from './FieldTick.module.css';

type FieldTickProps = {
  readonly label: string;
  readonly hint?: string;
  readonly ticked: boolean;
  readonly onChange: (ticked: boolean) => void;
  readonly disabled?: boolean;
};

/** A tick box whose whole line can be pressed. */
export function FieldTick({ label, hint, ticked, onChange, disabled = false }: FieldTickProps) {
  return (
    <label className={`ticked flex gap-12 ${styles.tick}`}>
      <input
        type="checkbox"
        checked={ticked}
        disabled={disabled}
        onChange={(event) => onChange(event.target.checked)}
      />
      <span>
        {label}
        {hint ? <span className="small block">{hint}</span> : null}
      </span>
    </label>
  );
}
