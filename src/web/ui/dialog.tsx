import { type ReactNode, useEffect, useId, useRef } from 'react';

interface DialogProps {
  readonly title: string;
  /** It was closed, by a button in it or by Escape: stop rendering it */
  readonly onClose: () => void;
  /** Closing through `close` gives the focus back to what opened it */
  readonly children: (close: () => void) => ReactNode;
}

/** Opens in front of the page as soon as it is rendered. */
export function Dialog({ title, onClose, children }: DialogProps) {
  const headId = useId();
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (box.current?.open === false) box.current.showModal();
  }, []);
  return (
    <dialog ref={box} aria-labelledby={headId} onClose={onClose}>
      <h2 id={headId}>{title}</h2>
      {children(() => box.current?.close())}
    </dialog>
  );
}
