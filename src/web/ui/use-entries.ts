import { type FormEvent, useId, useState } from 'react';
import { fieldOf, problemOf } from '../api/problem.js';
import type { FieldTrouble } from './trouble.js';

type Entries<Name extends string> = Readonly<Record<Name, string>>;
type Problems<Name extends string> = Readonly<Partial<Record<Name, string>>>;

interface EntriesOptions<Name extends string, Answer> {
  readonly start: Entries<Name>;
  /** What needs a change before anything is sent */
  readonly check: (entries: Entries<Name>) => Problems<Name>;
  readonly send: (entries: Entries<Name>) => Promise<{ data?: Answer; error?: unknown; response: Response }>;
  readonly onDone: (answer: Answer | undefined) => void;
  /** The field that a pointer of the service means; unset: the one of the same name */
  readonly fieldAt?: (pointer: string) => string;
  /** Put before what the service says of a field, which does not know what it is called here */
  readonly labelOf?: (name: Name) => string;
}

const none = <Name extends string>() => ({}) as Problems<Name>;

/**
 * The state of a form of text fields: what was typed stays whatever happens, and a problem is told at its field and above the form,
 * whether it was seen here or by the service.
 */
export function useEntries<Name extends string, Answer>({ start, check, send, onDone, fieldAt = fieldOf, labelOf }: EntriesOptions<Name, Answer>) {
  const prefix = useId();
  const [entries, setEntries] = useState(start);
  const [problems, setProblems] = useState(none<Name>);
  const [others, setOthers] = useState<readonly string[]>([]);
  const [attempt, setAttempt] = useState(0);
  const [isSending, setSending] = useState(false);

  const idOf = (name: Name) => `${prefix}${name}`;
  const names = Object.keys(entries) as Name[];

  const refuse = (fields: Problems<Name>, rest: readonly string[]) => {
    setProblems(fields);
    setOthers(rest);
    setAttempt((count) => count + 1);
  };

  const told = (name: Name, message: string) => [name, labelOf === undefined ? message : `${labelOf(name)}: ${message}`];

  const submit = async (event?: FormEvent) => {
    event?.preventDefault();
    const found = check(entries);
    if (Object.values(found).some((problem) => problem !== undefined)) return refuse(found, []);
    setSending(true);
    const { data, error, response } = await send(entries).catch((thrown: unknown) => ({ data: undefined, error: thrown, response: Response.error() }));
    setSending(false);
    if (response.ok) {
      refuse(none(), []);
      return onDone(data);
    }
    const problem = problemOf(error);
    const known = problem.errors.filter((one) => names.some((name) => name === fieldAt(one.pointer)));
    const rest = problem.errors.filter((one) => !known.includes(one)).map((one) => one.message);
    refuse(
      Object.fromEntries(known.map(({ pointer, message }) => told(fieldAt(pointer) as Name, message))) as Problems<Name>,
      problem.errors.length === 0 ? [problem.title] : rest,
    );
  };

  const troubles: FieldTrouble[] = [
    ...names.flatMap((name) => {
      const message = problems[name];
      return message === undefined ? [] : [{ id: idOf(name), message }];
    }),
    ...others.map((message) => ({ message })),
  ];
  return {
    entries,
    setEntries,
    troubles,
    attempt: troubles.length === 0 ? 0 : attempt,
    isSending,
    submit,
    /** For `Field` */
    field: (name: Name) => ({ id: idOf(name), problem: problems[name] }),
    /** For the control inside it */
    control: (name: Name) => ({
      name,
      value: entries[name],
      onChange: (event: { target: { value: string } }) => {
        const { value } = event.target;
        setEntries((before) => ({ ...before, [name]: value }));
      },
    }),
  };
}
