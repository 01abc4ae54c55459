import type { Schemas } from '../api/client.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { planWords } from '../words/plan.js';

type Left = Schemas['NotInPlanView'];

/** What no tour holds, each with its reason. */
export function NotInPlan({ left, sites }: { left: readonly Left[]; sites: readonly Schemas['SitePlanningView'][] }) {
  const columns: readonly Column<Left>[] = [
    {
      name: planWords.notInWhat,
      cell: ({ text, kind }) => (
        <>
          {text}
          <small>{planWords.kinds[kind]}</small>
        </>
      ),
    },
    { name: planWords.site, cell: ({ siteId }) => sites.find((site) => site.siteId === siteId)?.name ?? '' },
    { name: planWords.reason, wide: true, cell: ({ reason }) => reason },
  ];
  return (
    <section className="block">
      <h2>{planWords.notIn}</h2>
      {left.length === 0 ? (
        <p className="aside">{planWords.notInNone}</p>
      ) : (
        <Sheet caption={planWords.notIn} columns={columns} rows={left} keyOf={({ kind, id }) => `${kind} ${id}`} />
      )}
    </section>
  );
}
