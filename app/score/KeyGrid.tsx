'use client';

import {
  createContext,
  type KeyboardEvent,
  type MouseEvent,
  type PointerEvent,
  type ReactNode,
  useContext,
  useEffect,
  useRef,
  useState,
} from 'react';
import { isSecondTap, type Press } from '#lib/evaluation/followTable';
import styles from './score.module.css';

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
  /** `downAt` is when the finger came down, in the clock of events: the screen may have changed since, the key has not. */
  readonly onChoose: (key: string, downAt: number) => void;
  /** Enter on the chosen key, or beside the keys: on to the next. */
  readonly onNext: () => void;
  /** Given where the keys should take the focus: a screen worked by keyboard. */
  readonly takeFocus: boolean;
};

/** Answers whether it has taken the key. */
type TakeKey = (key: string, at: number) => boolean;
const Grids = createContext<Set<TakeKey> | null>(null);

/** The part of a screen in which single keys act, wherever in it the focus is: on the large keys or beside them. */
export function KeyRegion({
  label,
  className,
  children,
}: {
  readonly label: string;
  readonly className: string | undefined;
  readonly children: ReactNode;
}) {
  const [grids] = useState(() => new Set<TakeKey>());
  const onKeyDown = (event: KeyboardEvent<HTMLElement>) => {
    if (event.defaultPrevented || isChord(event) || event.repeat || isField(event.target)) return;
    if ([...grids].toReversed().some((take) => take(event.key, event.timeStamp))) event.preventDefault();
  };
  return (
    <section className={className} aria-label={label} onKeyDown={onKeyDown}>
      <Grids value={grids}>{children}</Grids>
    </section>
  );
}

/**
 * Large keys, one of which may be chosen; choosing it again takes it back, but not by the second half of a double tap. By
 * keyboard: arrows move, the typed sign chooses, Enter goes on; a key held down counts once. Drawn anew (a key) for another question.
 */
export function KeyGrid({ label, columns, rows, chosen, onChoose, onNext, takeFocus }: Props) {
  const group = useRef<HTMLDivElement>(null);
  const minus = useRef(false);
  useEffect(() => {
    if (takeFocus) group.current?.focus({ preventScroll: true });
  }, [takeFocus]);
  const options = rows.flatMap((row) => row.options);
  const { fingerDown, click, choose } = usePresses(onChoose);
  const take: TakeKey = (key, at) => move(group.current, key) || type(key, at);
  const type: TakeKey = (key, at) => {
    const typed = minus.current ? `-${key}` : key;
    minus.current = key === '-';
    const option = options.find((one) => one.typed === typed.toLowerCase());
    if (option) {
      choose({ key: option.key, at });
      group.current?.querySelector<HTMLElement>(`[data-key="${option.key}"]`)?.focus();
    }
    return minus.current || option !== undefined;
  };
  useTakeKeys(take);
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    if (isChord(event)) return;
    if (event.repeat && !(event.key in steps)) {
      if (event.key !== 'Tab') event.preventDefault();
      return;
    }
    const handled = enter(event, onNext) || take(event.key, event.timeStamp);
    if (handled) event.preventDefault();
  };
  return (
    <div
      ref={group}
      role="group"
      aria-label={label}
      tabIndex={-1}
      className={`stack gap-8 ${styles.keys}`}
      data-columns={columns}
      onKeyDown={onKeyDown}
      onPointerDown={fingerDown}
    >
      {rows.map((row, index) => (
        <Row key={row.heading ?? index} row={row}>
          {row.options.map((option) => (
            <Key
              key={option.key}
              option={option}
              pressed={option.key === chosen}
              onPress={(event) => click(option.key, event)}
            />
          ))}
        </Row>
      ))}
    </div>
  );
}

/** One press for a double tap, dated by when its finger came down: the screen may have changed before it was lifted. */
function usePresses(onChoose: Props['onChoose']) {
  const last = useRef<Press | null>(null);
  const downAt = useRef<number | null>(null);
  const choose = (press: Press) => {
    const second = isSecondTap(last.current, press);
    last.current = press;
    if (!second) onChoose(press.key, press.at);
  };
  return {
    choose,
    fingerDown: (event: PointerEvent) => {
      downAt.current = event.timeStamp;
    },
    click: (key: string, event: MouseEvent) => {
      // By keyboard or another aid there is no finger.
      const began = event.detail > 0 ? downAt.current : null;
      downAt.current = null;
      choose({ key, at: began ?? event.timeStamp });
    },
  };
}

/** Lets the region around hand on what is typed beside the keys. */
function useTakeKeys(take: TakeKey): void {
  const grids = useContext(Grids);
  useEffect(() => {
    grids?.add(take);
    return () => {
      grids?.delete(take);
    };
  });
}

function isChord({ ctrlKey, metaKey, altKey }: KeyboardEvent): boolean {
  return ctrlKey || metaKey || altKey;
}

function isField(target: EventTarget): boolean {
  return target instanceof Element && target.matches('input, textarea, select');
}

function Row({ row, children }: { readonly row: KeyRow; readonly children: ReactNode }) {
  return (
    <>
      {row.heading !== undefined ? (
        <p aria-hidden="true" className={`small ${styles.keyGridHeading}`}>
          {row.heading}
        </p>
      ) : null}
      {children}
    </>
  );
}

type KeyProps = {
  readonly option: KeyOption;
  readonly pressed: boolean;
  readonly onPress: (event: MouseEvent) => void;
};

function Key({ option, pressed, onPress }: KeyProps) {
  return (
    <button
      type="button"
      data-key={option.key}
      data-span={option.columns}
      aria-pressed={pressed}
      className={`key row ${styles.key} ${option.text ? styles.text : ''}`}
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
