/** The states of a purchase order. What has come of a sent one is told by its lines, not by a state. */
export const ORDER_STATES = ['draft', 'approved', 'sent', 'closed', 'cancelled'] as const;
export type OrderState = (typeof ORDER_STATES)[number];

export type OrderAct = 'edit' | 'approve' | 'take back' | 'send' | 'promise' | 'receive' | 'return' | 'chase' | 'close' | 'cancel';

const WHEN: Record<OrderAct, readonly OrderState[]> = {
  edit: ['draft'],
  approve: ['draft'],
  'take back': ['approved'],
  send: ['approved'],
  promise: ['sent'],
  receive: ['sent'],
  return: ['sent', 'closed'],
  chase: ['sent'],
  close: ['sent'],
  cancel: ['draft', 'approved', 'sent'],
};

const MEND: Record<OrderState, string> = {
  draft: 'it is a draft: approve and send it first',
  approved: 'it is approved and not sent: take it back to change it, or send it',
  sent: 'it was sent: tell the supplier, then close or cancel it and make another one',
  closed: 'it is closed: make a new order for what comes after, or receive without one',
  cancelled: 'it is cancelled: make a new order, or receive without one',
};

/**
 * Why this cannot be done to an order in this state, and what to do instead; null where it can.
 *
 * @example actProblem('send', 'approved') // => null
 * @example actProblem('receive', 'cancelled') // => "it is cancelled: make a new order, or receive without one"
 */
export function actProblem(act: OrderAct, state: OrderState): string | null {
  return WHEN[act].includes(state) ? null : MEND[state];
}

const IN_WORDS: Record<OrderAct, string> = {
  edit: 'edited',
  approve: 'approved',
  'take back': 'taken back to a draft',
  send: 'sent',
  promise: 'promised for a day',
  receive: 'received',
  return: 'returned',
  chase: 'asked after',
  close: 'closed',
  cancel: 'cancelled',
};

/**
 * As `actProblem`, as a sentence about an order.
 *
 * @example actRefusal(12, 'receive', 'draft') // => "Order 12 cannot be received now: it is a draft: approve and send it first"
 */
export function actRefusal(no: number, act: OrderAct, state: OrderState): string | null {
  const problem = actProblem(act, state);
  return problem === null ? null : `Order ${no} cannot be ${IN_WORDS[act]} now: ${problem}`;
}
