import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { readDecimal } from '../readings/hand-fields.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { settingWords as said } from '../words/stock-settings.js';
import { storeWords } from '../words/store.js';

interface SettingFormProps {
  readonly of: { readonly itemId: string; readonly placeId: string; readonly unit: string };
  /** Unset: nobody said anything of this place */
  readonly setting?: Schemas['KeptItemView'];
  readonly onDone: () => void;
}

const optionsOf = (names: Readonly<Record<string, string>>) => [
  { value: '', label: said.usual },
  ...Object.entries(names).map(([value, label]) => ({ value, label })),
];

const readShare = (text: string) => {
  const percent = readDecimal(text);
  if (percent === undefined || percent < 50 || percent > 99.99) return { problem: said.needPercent };
  return { value: Number((percent / 100).toFixed(6)) };
};
const writeShare = (share: unknown) => (typeof share === 'number' ? String(Number((share * 100).toFixed(4))) : '');
/** Decimals cross the API as text; a comma for the point is taken too. */
const asText = (text: string) => ({ value: text.replace(',', '.') });
const same = (value: unknown) => (typeof value === 'string' ? value : '');

function fieldsOf(unit: string): readonly RecordField[] {
  const named = storeWords.unitName(unit);
  return [
    { name: 'minimum', label: said.leastIn(named), hint: said.leastHint, empty: 'null', parse: asText, write: same },
    { name: 'maximum', label: said.mostIn(named), hint: said.mostHint, empty: 'null', parse: asText, write: same },
    { name: 'service', label: said.asked, options: optionsOf(said.services) },
    {
      name: 'asked',
      label: said.percent,
      hint: said.percentHint,
      empty: 'null',
      parse: readShare,
      write: writeShare,
      only: { field: 'service', is: ['', 'fill', 'jobs'] },
    },
    { name: 'shortCost', label: said.shortCost, hint: said.shortCostHint, empty: 'null', parse: asText, write: same, only: { field: 'service', is: ['cost'] } },
    { name: 'reviewDays', label: said.reviewDays, hint: said.reviewHint, type: 'number' },
    { name: 'criticality', label: said.criticality, options: optionsOf(said.critical) },
    { name: 'note', label: said.why },
  ];
}

/** Says how an item is kept at a place; what is left empty is as usual. */
export function SettingForm({ of: { itemId, placeId, unit }, setting, onDone }: SettingFormProps) {
  return (
    <RecordForm
      fields={fieldsOf(unit)}
      {...(setting === undefined ? {} : { record: setting })}
      button={said.keep}
      send={async (body: Schemas['StockSettingDto']) => {
        const answer = await api.PUT('/api/reorder/items/{itemId}/places/{placeId}/setting', {
          params: { path: { itemId, placeId } },
          headers: ifMatch({ version: setting?.version ?? 0 }),
          body,
        });
        if (answer.response.ok) onDone();
        return answer;
      }}
    />
  );
}
