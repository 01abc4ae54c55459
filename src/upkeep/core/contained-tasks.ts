/** A rule by its task and the smaller tasks that are done with it, all at one kind of position. */
export interface Containing {
  readonly task: string;
  readonly contains: readonly string[];
}

/** A major service may contain a medium one, and that one a minor one. */
const LEVELS = 2;

/**
 * All that a task contains, itself left out: what it names, and what those name in turn, two levels deep. A task that is named in a ring is taken once.
 *
 * Source: nested services, common practice.
 *
 * @example allContained('overhaul', [{ task: 'overhaul', contains: ['service'] }, { task: 'service', contains: ['grease'] }]) // => ["service", "grease"]
 */
export function allContained(task: string, rules: readonly Containing[]): string[] {
  const found: string[] = [];
  let level = [task];
  for (let depth = 0; depth < LEVELS; depth += 1) {
    level = rules.filter((rule) => level.includes(rule.task)).flatMap(({ contains }) => contains.filter((name) => name !== task && !found.includes(name)));
    found.push(...new Set(level));
  }
  return found;
}

export type ContainsFault = { readonly kind: 'ring' | 'too deep'; readonly path: readonly string[] };

/**
 * What is wrong with the nesting that begins at a task: a ring, in which a task would contain itself, or more than two levels. `null` where nothing is. The path names the
 * tasks on the way.
 *
 * @example containsFault('a', [{ task: 'a', contains: ['b'] }, { task: 'b', contains: ['a'] }]) // => { "kind": "ring", "path": ["a", "b", "a"] }
 * @example containsFault('a', [{ task: 'a', contains: ['b'] }]) // => null
 */
export function containsFault(task: string, rules: readonly Containing[]): ContainsFault | null {
  return faultBelow([task], rules);
}

function faultBelow(path: readonly string[], rules: readonly Containing[]): ContainsFault | null {
  const names = rules.filter(({ task }) => task === path.at(-1)).flatMap(({ contains }) => contains);
  for (const name of names) {
    const longer = [...path, name];
    if (path.includes(name)) return { kind: 'ring', path: longer };
    if (longer.length > LEVELS + 1) return { kind: 'too deep', path: longer };
    const below = faultBelow(longer, rules);
    if (below !== null) return below;
  }
  return null;
}
