import { type FormEvent, useId, useState } from 'react';
import type { Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import type { FieldTrouble } from '../ui/trouble.js';
import { checkSheet, type SheetDraft, sheetPathOf } from './sheet-draft.js';

type Sheet = Schemas['TaskSheetView'];
type Answer = { data?: Sheet; error?: unknown; response: Response };

interface DraftOptions {
  readonly start: SheetDraft;
  readonly send: (draft: SheetDraft) => Promise<Answer>;
  readonly onDone: (sheet: Sheet | undefined) => void;
}

/** The state of the form of a task sheet: what was typed stays, and each problem is told at its field, by its path. */
export function useSheetDraft({ start, send, onDone }: DraftOptions) {
  const prefix = useId();
  const [draft, setDraft] = useState(start);
  const [problems, setProblems] = useState<Readonly<Record<string, string>>>({});
  const [others, setOthers] = useState<readonly string[]>([]);
  const [attempt, setAttempt] = useState(0);
  const [isSending, setSending] = useState(false);
  const idOf = (path: string) => `${prefix}${path}`;
  const refuse = (fields: Readonly<Record<string, string>>, rest: readonly string[]) => {
    setProblems(fields);
    setOthers(rest);
    setAttempt((count) => count + 1);
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const found = checkSheet(draft);
    if (Object.keys(found).length > 0) return refuse(found, []);
    setSending(true);
    const { data, error, response } = await send(draft).catch((thrown: unknown): Answer => ({ error: thrown, response: Response.error() }));
    setSending(false);
    if (response.ok) return onDone(data);
    const { title, errors } = problemOf(error);
    refuse(Object.fromEntries(errors.map(({ pointer, message }) => [sheetPathOf(pointer), message])), errors.length === 0 ? [title] : []);
  };
  const troubles: FieldTrouble[] = [
    ...Object.entries(problems).map(([path, message]) => ({ id: idOf(path), message })),
    ...others.map((message) => ({ message })),
  ];
  return {
    draft,
    change: (part: Partial<SheetDraft>) => setDraft((before) => ({ ...before, ...part })),
    /** Rows have no fixed place, so that what was said of one does not stay behind at another. */
    changeRows: (part: Partial<SheetDraft>) => {
      setDraft((before) => ({ ...before, ...part }));
      setProblems({});
    },
    field: (path: string) => ({ id: idOf(path), problem: problems[path] }),
    troubles,
    attempt: troubles.length === 0 ? 0 : attempt,
    isSending,
    submit,
  };
}
export type SheetForm = ReturnType<typeof useSheetDraft>;
