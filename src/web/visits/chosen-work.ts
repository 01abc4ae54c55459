/** A line of the due list, or a job, that is to go into a visit. */
export interface WorkChosen {
  readonly id: string;
  readonly skidId: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly bestOn: string | null;
}

/** What can be done with what is chosen: nothing yet, a visit to one site, or first to choose otherwise. */
export type Judged = { readonly kind: 'none' } | { readonly kind: 'one site'; readonly first: WorkChosen } | { readonly kind: 'sites'; readonly sites: number };

export function judgeChosen(chosen: readonly WorkChosen[]): Judged {
  const sites = new Set(chosen.map(({ siteName, clientName }) => JSON.stringify([siteName, clientName])));
  if (sites.size > 1) return { kind: 'sites', sites: sites.size };
  const [first] = chosen;
  return first === undefined ? { kind: 'none' } : { kind: 'one site', first };
}
