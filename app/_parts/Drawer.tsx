'use client';

import { type ReactNode, useEffect, useId, useRef } from 'react';
import { Button } from './Button';
import styles from './Drawer.module.css';

type DrawerProps = {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
};

/** A drawer from the side over the page: keeps the keyboard inside, closes on Escape, gives the focus back. Draw it only while open. */
export function Drawer({ title, onClose, children }: DrawerProps) {
  const id = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const opened = dialog.current;
    const before = focusPath();
    opened?.showModal();
    return () => {
      opened?.close();
      giveFocus(before);
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      aria-labelledby={id}
      className={styles.drawer}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <div className={`row between gap-16 ${styles.head}`}>
        <h2 id={id}>{title}</h2>
        <Button onClick={onClose}>Close</Button>
      </div>
      <div className={`stack gap-20 ${styles.inside}`}>{children}</div>
    </dialog>
  );
}

const takesFocus =
  'a[href], button:not(:disabled), input:not(:disabled), select:not(:disabled), textarea:not(:disabled), summary, [tabindex]';

/** What has the focus, and all it lies in, from the inside out. */
function focusPath(): readonly Element[] {
  const path: Element[] = [];
  for (let one = document.activeElement; one !== null && one !== document.body; one = one.parentElement) path.push(one);
  return path;
}

/** Gives the focus back; where what had it is gone, to the nearest thing in the part of the page it was in. */
function giveFocus([before, ...around]: readonly Element[]): void {
  if (before?.isConnected && before instanceof HTMLElement) before.focus();
  if (!before || document.activeElement === before) return;
  const nearest = around.find((one) => one.isConnected)?.querySelector<HTMLElement>(takesFocus);
  nearest?.focus();
}
