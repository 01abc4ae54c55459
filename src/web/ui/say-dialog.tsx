import { useQueryClient } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { words } from '../words.js';
import { Dialog } from './dialog.js';
import { Field } from './field.js';
import { Trouble } from './trouble.js';
import { useEntries } from './use-entries.js';

interface SayDialogProps {
  readonly title: string;
  readonly children?: ReactNode;
  readonly button: string;
  /** What has to be said with it; unset: it is confirmed and nothing else */
  readonly say?: { readonly label: string; readonly hint?: string; readonly need: string };
  readonly send: (text: string) => Promise<{ data?: unknown; error?: unknown; response: Response }>;
  /** All that is shown is read again then */
  readonly onDone?: () => void;
  readonly onClose: () => void;
}

/** Asks before something is done that others will see, and for the reason where one is kept. */
export function SayDialog({ onClose, ...rest }: SayDialogProps) {
  return (
    <Dialog title={rest.title} onClose={onClose}>
      {(close) => <SayForm {...rest} close={close} />}
    </Dialog>
  );
}

function SayForm({ children, button, say, send, onDone, close }: Omit<SayDialogProps, 'onClose' | 'title'> & { close: () => void }) {
  const client = useQueryClient();
  const form = useEntries({
    start: { text: '' },
    check: ({ text }) => (say !== undefined && text.trim() === '' ? { text: say.need } : {}),
    fieldAt: () => 'text',
    send: ({ text }) => send(text.trim()),
    onDone: () => {
      close();
      onDone?.();
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      {children}
      {say !== undefined && (
        <Field {...form.field('text')} label={say.label} hint={say.hint}>
          {(props) => <textarea {...props} {...form.control('text')} rows={3} />}
        </Field>
      )}
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {button}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
