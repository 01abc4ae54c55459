import { useEffect, useRef } from 'react';
import type { Schemas } from '../../api/client.js';
import { number } from '../../format.js';
import { addDays } from '../../site-time.js';
import { type Column, Sheet } from '../../ui/sheet.js';
import { weekday } from '../../visits/weekday.js';
import { planWords } from '../../words/plan.js';
import { whatIfWords as said } from '../../words/what-if.js';
import { worth } from '../cost-table.js';
import { whatIfInWords } from './what-if-in-words.js';

type Cost = Schemas['PlanCostView'];
interface Compared {
  readonly kind: Cost['kind'];
  readonly now: Cost;
  readonly otherwise: Cost;
}

const counted = (cost: Cost) => said.counted(worth(cost), cost.count);

function difference({ now, otherwise }: Compared): string {
  const minutes = otherwise.minutes - now.minutes;
  const money = now.money === null || otherwise.money === null ? null : otherwise.money - now.money;
  const more = money ?? minutes;
  if (Math.round(more) === 0) return number(null);
  return `${more > 0 ? '+' : '−'}${worth({ minutes: Math.abs(minutes), money: money === null ? null : Math.abs(money) })}`;
}

const COLUMNS: readonly Column<Compared>[] = [
  { name: said.costKind, cell: ({ kind }) => planWords.costKinds[kind] },
  { name: said.now, numeric: true, cell: ({ now }) => counted(now) },
  { name: said.otherwise, numeric: true, cell: ({ otherwise }) => counted(otherwise) },
  { name: said.difference, numeric: true, cell: difference },
];

interface AnswerProps {
  readonly asked: string;
  readonly view: Schemas['WhatIfView'];
  readonly onAgain: () => void;
  readonly close: () => void;
}

/** Both plans beside each other: in sentences, then by kind of cost. */
export function WhatIfAnswer({ asked, view, onAgain, close }: AnswerProps) {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus(), []);
  const rows = view.now.costs.flatMap((now): Compared[] => {
    const otherwise = view.otherwise.costs.find(({ kind }) => kind === now.kind);
    return otherwise === undefined || (now.count === 0 && otherwise.count === 0) ? [] : [{ kind: now.kind, now, otherwise }];
  });
  return (
    <div className="of-line">
      <h3 ref={head} tabIndex={-1}>
        {asked}
      </h3>
      <ul className="plain">
        {whatIfInWords(view).map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <Sheet scrolls caption={said.caption} columns={COLUMNS} rows={rows} keyOf={({ kind }) => kind} />
      <p className="hint">
        {said.countsAs(view.currency)} {said.days(weekday(view.firstDay), weekday(addDays(view.firstDay, view.days - 1)))}
      </p>
      <div className="row">
        <button type="button" className="main-button" onClick={onAgain}>
          {said.again}
        </button>
        <button type="button" onClick={close}>
          {said.close}
        </button>
      </div>
    </div>
  );
}
