interface Place {
  readonly id: string | null;
  readonly skidId: string;
  readonly hasChildren: boolean;
}

interface Parent {
  readonly id: string;
  readonly skidId: string;
  readonly parentId: string | null;
  readonly ended: boolean;
}

/**
 * Why a position may not stand within another one; null where it may. Positions nest once: a valve has its actuator, a pump its
 * seal and its motor, and these have nothing within them. `parent` is undefined where there is no such position.
 *
 * @example nestingProblem({ id: 'seal', skidId: 's', hasChildren: false }, { id: 'pump', skidId: 's', parentId: null, ended: false }) // => null
 * @example nestingProblem({ id: 'pump', skidId: 's', hasChildren: true }, { id: 'valve', skidId: 's', parentId: null, ended: false }) // => "has positions within it, and positions nest only once"
 */
export function nestingProblem(place: Place, parent: Parent | undefined): string | null {
  if (parent === undefined || parent.skidId !== place.skidId) return 'there is no such position on this skid';
  if (parent.id === place.id) return 'a position cannot be within itself';
  if (parent.ended) return 'that position has ended';
  if (parent.parentId !== null) return 'that position is within another one already, and positions nest only once';
  return place.hasChildren ? 'has positions within it, and positions nest only once' : null;
}
