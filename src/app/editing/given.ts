/** The fields of a change that were given: what is undefined stays as it is. */
export function given<T extends object>(change: T): { [Field in keyof T]?: Exclude<T[Field], undefined> } {
  return Object.fromEntries(Object.entries(change).filter(([, value]) => value !== undefined)) as { [Field in keyof T]?: Exclude<T[Field], undefined> };
}
