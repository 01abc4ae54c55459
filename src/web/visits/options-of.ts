import type { Option } from '../ui/choice.js';

/** Each record once, by name, as the options of a filter. What is chosen stays choosable where no record of the week has it. */
export function optionsOf(records: readonly { readonly id: string; readonly name: string }[], chosen: string | undefined): Option[] {
  const names = new Map(records.map(({ id, name }) => [id, name]));
  if (chosen !== undefined && !names.has(chosen)) names.set(chosen, '–');
  return [...names].map(([value, label]) => ({ value, label })).toSorted((one, other) => one.label.localeCompare(other.label));
}
