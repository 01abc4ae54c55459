import { useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { api } from '../api/client.js';
import { type Problem, problemOf } from '../api/problem.js';
import { Trouble } from '../ui/trouble.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { planWords } from '../words/plan.js';
import { LineTable } from './line-table.js';
import { isToAccept } from './lines.js';
import type { ShownPlan } from './shown-plan.js';

interface SectionProps {
  readonly planId: string;
  readonly plan: ShownPlan;
  /** Narrowed to the lines of one person; empty: everybody */
  readonly personId: string;
  /** Of a plan that another one replaced nothing can be taken over */
  readonly isReplaced: boolean;
  readonly onOpen: (lineId: string) => void;
}

/** The visits of a plan in words, and those of them taken over that are ticked: all at once, or none with the reason of each. */
export function LineSection({ planId, plan, personId, isReplaced, onOpen }: SectionProps) {
  const prefix = useId();
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const [ticked, setTicked] = useState<readonly string[]>([]);
  const [problem, setProblem] = useState<Problem>();
  const [attempt, setAttempt] = useState(0);
  const [isBusy, setBusy] = useState(false);
  const [said, setSaid] = useState('');
  const open = isReplaced
    ? []
    : plan.lines.filter((line) => isToAccept(line) && (personId === '' || line.people.some((person) => person.personId === personId)));
  const lineIds = open.map(({ id }) => id).filter((id) => ticked.includes(id));
  const idOf = (lineId: string) => `${prefix}${lineId}`;

  const accept = async () => {
    setBusy(true);
    setSaid('');
    const send = api.POST('/api/plans/{id}/accept', { params: { path: { id: planId }, header: keyOf(lineIds) }, body: { lineIds } });
    const { error, response } = await send.catch((thrown: unknown) => ({ error: thrown, response: Response.error() }));
    setBusy(false);
    setProblem(response.ok ? undefined : problemOf(error));
    setAttempt((count) => count + 1);
    if (!response.ok) return;
    setTicked([]);
    setSaid(planWords.accepted(lineIds.length));
    await client.invalidateQueries();
  };

  const troubles = (problem?.errors ?? []).map(({ pointer, message }) => {
    const lineId = lineIds[Number(pointer.split('/').at(-1))];
    return lineId === undefined ? { message } : { id: idOf(lineId), message };
  });
  return (
    <section className="block">
      <h2>{planWords.lines}</h2>
      {problem !== undefined && <Trouble troubles={troubles} attempt={attempt} title={problem.title} />}
      <LineTable
        plan={plan}
        personId={personId}
        onOpen={onOpen}
        tickOf={(line) =>
          open.includes(line)
            ? {
                id: idOf(line.id),
                isTicked: ticked.includes(line.id),
                toggle: () => setTicked((before) => (before.includes(line.id) ? before.filter((id) => id !== line.id) : [...before, line.id])),
              }
            : undefined
        }
      />
      {open.length > 0 || said !== '' ? (
        <div className="plan-bar no-print">
          <p role="status">{lineIds.length === 0 && said !== '' ? said : planWords.ticked(lineIds.length, open.length)}</p>
          {open.length > 0 && (
            <>
              <button type="button" className="main-button" disabled={lineIds.length === 0 || isBusy} onClick={() => void accept()}>
                {planWords.accept}
              </button>
              <button type="button" disabled={lineIds.length === open.length} onClick={() => setTicked(open.map(({ id }) => id))}>
                {planWords.tickAll}
              </button>
            </>
          )}
        </div>
      ) : null}
    </section>
  );
}
