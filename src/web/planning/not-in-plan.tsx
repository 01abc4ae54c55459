import type { Schemas } from '../api/client.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { planWords } from '../words/plan.js';

type Left = Schemas['NotInPlanView'];

const COLUMNS: readonly Column<Left>[] = [
  {
    name: planWords.notInWhat,
    cell: ({ text, kind, urgent, promised }) => (
      <>
        {text}
        <small>{[planWords.kinds[kind], urgent && planWords.urgent, promised && planWords.promised].filter(Boolean).join(', ')}</small>
      </>
    ),
  },
  { name: planWords.site, cell: ({ siteName }) => siteName },
  { name: planWords.reason, wide: true, cell: ({ reason }) => reason },
];

/** What no tour holds, each with its reason. */
export function NotInPlan({ left }: { left: readonly Left[] }) {
  return (
    <section className="block">
      <h2>{planWords.notIn}</h2>
      {left.length === 0 ? (
        <p className="aside">{planWords.notInNone}</p>
      ) : (
        <Sheet caption={planWords.notIn} columns={COLUMNS} rows={left} keyOf={({ kind, id }) => `${kind} ${id}`} />
      )}
    </section>
  );
}
