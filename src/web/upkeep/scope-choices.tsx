import { query } from '../api/client.js';
import { Choice } from '../ui/choice.js';
import { skidRuleWords as said } from '../words/skid-rules.js';

const MOST = 200;
const optionsOf = (records: readonly { readonly id: string; readonly name: string }[] = []) => records.map(({ id, name }) => ({ value: id, label: name }));

interface ScopeChoiceProps {
  readonly value: string | undefined;
  readonly onChoose: (id: string) => void;
}

/** Narrows a page to the skids of one client. */
export function ClientChoice({ value, onChoose }: ScopeChoiceProps) {
  const clients = query.useQuery('get', '/api/clients', { params: { query: { limit: MOST } } });
  return <Choice label={said.client} value={value} options={optionsOf(clients.data?.items)} onChoose={onChoose} />;
}

/** Narrows a page to one skid, of one client where that is chosen. */
export function SkidChoice({ clientId, value, onChoose }: ScopeChoiceProps & { clientId: string | undefined }) {
  const skids = query.useQuery('get', '/api/skids', { params: { query: { limit: MOST, ...(clientId === undefined ? {} : { clientId }) } } });
  return <Choice label={said.skid} value={value} options={optionsOf(skids.data?.items)} onChoose={onChoose} />;
}
