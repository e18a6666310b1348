'use client';

import { type KeyboardEvent, type ReactNode, useEffect, useRef } from 'react';
import styles from './KeyGrid.module.css';

export type KeyOption = {
  readonly key: string;
  readonly big: string;
  readonly small?: string | undefined;
  /** Said before the visible words, where these alone are not enough: the side of a two-sided scale. */
  readonly aloud?: string | undefined;
  /** What to type for it while the focus is within the keys; may start with a minus. */
  readonly typed?: string | undefined;
  readonly columns: number;
  readonly text?: boolean;
};

export type KeyRow = { readonly heading?: string | undefined; readonly options: readonly KeyOption[] };

type Props = {
  readonly label: string;
  /** Columns of the grid; each option says how many it spans. */
  readonly columns: number;
  readonly rows: readonly KeyRow[];
  readonly chosen: string | null;
  readonly onChoose: (key: string) => void;
  /** Enter on the chosen key, or beside the keys: on to the next. */
  readonly onNext: () => void;
  /** Given where the keys should take the focus: a screen worked by keyboard. */
  readonly takeFocus: boolean;
};

/**
 * Large keys, one of which may be chosen; choosing it again takes it back. By keyboard: arrows move, the typed sign
 * chooses, Enter goes on. Single keys act only while the focus is within.
 */
export function KeyGrid({ label, columns, rows, chosen, onChoose, onNext, takeFocus }: Props) {
  const group = useRef<HTMLDivElement>(null);
  const minus = useRef(false);
  useEffect(() => {
    if (takeFocus) group.current?.focus({ preventScroll: true });
  }, [takeFocus]);
  const options = rows.flatMap((row) => row.options);
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const handled = move(group.current, event.key) || enter(event, onNext) || type(event.key);
    if (handled) event.preventDefault();
  };
  const type = (key: string): boolean => {
    const typed = minus.current ? `-${key}` : key;
    minus.current = key === '-';
    const option = options.find((one) => one.typed === typed.toLowerCase());
    if (option) {
      onChoose(option.key);
      group.current?.querySelector<HTMLElement>(`[data-key="${option.key}"]`)?.focus();
    }
    return minus.current || option !== undefined;
  };
  return (
    <div ref={group} role="group" aria-label={label} tabIndex={-1} className={styles.keys} data-columns={columns} onKeyDown={onKeyDown}>
      {rows.map((row, index) => (
        <Row key={row.heading ?? index} row={row}>
          {row.options.map((option) => (
            <Key key={option.key} option={option} pressed={option.key === chosen} onPress={() => onChoose(option.key)} />
          ))}
        </Row>
      ))}
    </div>
  );
}

function Row({ row, children }: { readonly row: KeyRow; readonly children: ReactNode }) {
  return (
    <>
      {row.heading !== undefined && (
        <p aria-hidden="true" className={styles.heading}>
          {row.heading}
        </p>
      )}
      {children}
    </>
  );
}

type KeyProps = { readonly option: KeyOption; readonly pressed: boolean; readonly onPress: () => void };

function Key({ option, pressed, onPress }: KeyProps) {
  return (
    <button
      type="button"
      data-key={option.key}
      data-span={option.columns}
      aria-pressed={pressed}
      className={`${styles.key} ${option.text ? styles.text : ''}`}
      onClick={onPress}
    >
      {option.aloud === undefined ? null : <span className="aloud">{option.aloud} </span>}
      <span>{option.big}</span>
      {option.small === undefined ? null : <small>{option.small}</small>}
    </button>
  );
}

const steps: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 };

function move(group: HTMLElement | null, key: string): boolean {
  const step = steps[key];
  if (step === undefined || !group) return false;
  const keys = [...group.querySelectorAll<HTMLElement>('button')];
  const here = keys.findIndex((one) => one === document.activeElement);
  const pressed = keys.findIndex((one) => one.getAttribute('aria-pressed') === 'true');
  const target = here < 0 ? Math.max(pressed, 0) : Math.min(keys.length - 1, Math.max(0, here + step));
  keys[target]?.focus();
  return true;
}

/** Enter on a key not chosen is an ordinary press. */
function enter(event: KeyboardEvent<HTMLDivElement>, onNext: () => void): boolean {
  if (event.key !== 'Enter') return false;
  const onOpenKey = event.target instanceof HTMLElement && event.target.getAttribute('aria-pressed') === 'false';
  if (onOpenKey) return false;
  onNext();
  return true;
}
