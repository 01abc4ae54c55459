import { useRef, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { gatewayWords as said } from '../words/gateways.js';
import { words } from '../words.js';

/** Ends a key, after it was asked for twice. */
export function WithdrawKey({ gateway, onDone }: { gateway: Schemas['GatewayKeyView']; onDone: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const [problem, setProblem] = useState('');
  const withdraw = async () => {
    dialog.current?.close();
    const { error, response } = await api.POST('/api/gateway-keys/{id}/end', { params: { path: { id: gateway.id } } });
    if (response.ok) onDone();
    else setProblem(problemOf(error).title);
  };
  return (
    <div className="row">
      <button type="button" onClick={() => dialog.current?.showModal()}>
        {said.withdraw} <span className="unseen">{gateway.name}</span>
      </button>
      {problem !== '' && (
        <span role="alert" className="fix">
          {problem}
        </span>
      )}
      <dialog ref={dialog} aria-labelledby={`end${gateway.id}`}>
        <h2 id={`end${gateway.id}`}>{said.withdrawAsk(gateway.name)}</h2>
        <p>{said.withdrawNote}</p>
        <div className="row">
          <button type="button" className="main-button" onClick={() => void withdraw()}>
            {said.withdrawNow}
          </button>
          <button type="button" onClick={() => dialog.current?.close()}>
            {words.cancel}
          </button>
        </div>
      </dialog>
    </div>
  );
}
