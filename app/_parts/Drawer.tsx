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
    const before = document.activeElement;
    opened?.showModal();
    return () => {
      opened?.close();
      if (before instanceof HTMLElement) before.focus();
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
      <div className={styles.head}>
        <h2 id={id}>{title}</h2>
        <Button onClick={onClose}>Close</Button>
      </div>
      <div className={styles.inside}>{children}</div>
    </dialog>
  );
}
