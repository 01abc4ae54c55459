import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { repairWords as said } from '../words/repairs.js';
import { words } from '../words.js';
import { type Piece, PieceField } from './piece-field.js';
import { useEntered } from './use-entered.js';
import { usePlaces } from './use-places.js';

type Name = 'partId' | 'repairPlaceId' | 'expectedOn' | 'fault';
const START: Record<Name, string> = { partId: '', repairPlaceId: '', expectedOn: '', fault: '' };

/** Sends one part, with its serial number, to whoever repairs it. */
export function RepairSend() {
  const client = useQueryClient();
  const repairers = usePlaces().filter(({ kind }) => kind === 'repair');
  const [piece, setPiece] = useState<Piece | null>(null);
  const entered = useEntered();
  const form = useEntries<Name, Schemas['RepairView']>({
    start: START,
    check: ({ repairPlaceId, fault }) => ({
      ...(piece === null ? { partId: said.needPiece } : {}),
      ...(repairPlaceId === '' ? { repairPlaceId: said.needRepairer } : {}),
      ...(fault.trim() === '' ? { fault: said.needFault } : {}),
    }),
    // What the ledger says of its move is said of the part here.
    fieldAt: (pointer) => (/^#\/(moves|fromPlaceId)/.test(pointer) ? 'partId' : (pointer.split('/')[1] ?? pointer)),
    send: ({ repairPlaceId, expectedOn, fault }) => {
      const { partId = '', placeId: fromPlaceId = '' } = piece ?? {};
      const body = { partId, fromPlaceId, repairPlaceId, expectedOn: expectedOn === '' ? null : expectedOn, fault: fault.trim() };
      return api.POST('/api/repairs', { body: { ...entered.of(body), ...body } });
    },
    onDone: () => {
      entered.done();
      setPiece(null);
      form.setEntries(START);
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <PieceField {...form.field('partId')} chosen={piece} onChosen={setPiece} />
      <div className="fields">
        <Field {...form.field('repairPlaceId')} label={said.to} {...(repairers.length === 0 ? { hint: said.noRepairer } : {})}>
          {(props) => (
            <select {...props} {...form.control('repairPlaceId')}>
              <option value="">{words.choose}</option>
              {repairers.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field {...form.field('expectedOn')} label={said.expectedOn}>
          {(props) => <input {...props} {...form.control('expectedOn')} type="date" />}
        </Field>
      </div>
      <Field {...form.field('fault')} label={said.fault}>
        {(props) => <textarea {...props} {...form.control('fault')} rows={2} maxLength={500} />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.send}
        </button>
      </div>
    </form>
  );
}
