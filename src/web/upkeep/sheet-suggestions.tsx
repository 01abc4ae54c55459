import { query, type Schemas } from '../api/client.js';
import { written } from '../format.js';
import { Loaded } from '../ui/states.js';
import { sheetWords as said } from '../words/task-sheets.js';
import type { PartDraft, SheetDraft } from './sheet-draft.js';

type Finding = Schemas['PartFindingView'];

interface SuggestionsProps {
  readonly sheetId: string;
  /** Where the next version is being written: what is taken goes into it, and nowhere else */
  readonly into?: { readonly draft: SheetDraft; readonly change: (part: Partial<SheetDraft>) => void };
}

/** How long finished jobs took and what they used, against what the sheet says. */
export function SheetSuggestions({ sheetId, into }: SuggestionsProps) {
  const found = query.useQuery('get', '/api/task-sheets/{id}/suggestions', { params: { path: { id: sheetId } } });
  return (
    <section className="block">
      <h2>{said.suggestions}</h2>
      {into !== undefined && <p className="hint">{said.suggestionsNote}</p>}
      <Loaded of={found} what={said.whatSuggestions}>
        {({ summary, usualMinutes, sheetMinutes, parts }) => (
          <ul className="suggested">
            <li>
              <span>{summary}</span>
              {into !== undefined && usualMinutes !== null && Math.round(usualMinutes) !== sheetMinutes && (
                <Take
                  isTaken={into.draft.usualMinutes === String(Math.round(usualMinutes))}
                  label={said.takeMinutes(Math.round(usualMinutes))}
                  about=""
                  onTake={() => into.change({ usualMinutes: String(Math.round(usualMinutes)) })}
                />
              )}
            </li>
            {parts.length === 0 && usualMinutes !== null && <li>{said.noParts}</li>}
            {parts.map((finding) => (
              <li key={finding.itemId}>
                <span>{inWords(finding)}</span>
                {into !== undefined && (
                  <Take
                    isTaken={isTaken(into.draft.parts, finding)}
                    label={labelOf(finding)}
                    about={finding.name}
                    onTake={() => into.change({ parts: withFinding(into.draft.parts, finding) })}
                  />
                )}
              </li>
            ))}
          </ul>
        )}
      </Loaded>
    </section>
  );
}

function Take({ isTaken, label, about, onTake }: { isTaken: boolean; label: string; about: string; onTake: () => void }) {
  if (isTaken) return <em role="status">{said.tookIt}</em>;
  return (
    <button type="button" onClick={onTake}>
      {label} <span className="unseen">{about}</span>
    </button>
  );
}

const amount = (value: number | null) => (value === null ? '0' : written(value));

function inWords({ what, name, asked, used, usedIn, jobs }: Finding): string {
  const times = said.times(usedIn, jobs);
  if (what === 'another quantity') return said.usedInstead(name, amount(asked), amount(used), times);
  return what === 'used but not asked' ? said.usedToo(name, amount(used), times) : said.seldom(name, amount(asked), times);
}

function labelOf({ what, used }: Finding): string {
  if (what === 'another quantity') return said.takeQuantity(amount(used));
  return what === 'used but not asked' ? said.takePart : said.takeOut;
}

/** The parts of the version with what finished work says of one item. */
function withFinding(parts: readonly PartDraft[], { what, itemId, name, code, used }: Finding): readonly PartDraft[] {
  const others = parts.filter((part) => part.itemId !== itemId);
  if (what === 'asked but seldom used') return others;
  const quantity = String(used ?? 1);
  if (what === 'used but not asked') return [...others, { key: itemId, itemId, name: `${name} (${code})`, quantity, everyVisit: false }];
  return parts.map((part) => (part.itemId === itemId ? { ...part, quantity } : part));
}

function isTaken(parts: readonly PartDraft[], { what, itemId, used }: Finding): boolean {
  const part = parts.find((each) => each.itemId === itemId);
  return what === 'asked but seldom used' ? part === undefined : part?.quantity === String(used ?? 1);
}
