const KEYS_BEFORE_TIDYING = 1000;

/**
 * Failed tries of the last minutes, so that nobody guesses passwords at leisure. A try is taken before it is known whether it
 * succeeds, since many may run at once, and given back when it did.
 */
export class RecentTries {
  private readonly moments = new Map<string, number[]>();

  constructor(
    private readonly most: number,
    private readonly withinMs: number,
  ) {}

  /** Takes a try for the key; false when too many were taken within the time. A refused try does not count. */
  take(key: string, now: number): boolean {
    if (this.moments.size > KEYS_BEFORE_TIDYING) this.tidy(now);
    const recent = this.recent(key, now);
    if (recent.length >= this.most) return false;
    this.moments.set(key, [...recent, now]);
    return true;
  }

  forget(key: string): void {
    this.moments.delete(key);
  }

  giveBack(key: string): void {
    const left = this.moments.get(key)?.slice(0, -1) ?? [];
    if (left.length === 0) this.moments.delete(key);
    else this.moments.set(key, left);
  }

  private recent(key: string, now: number): number[] {
    return (this.moments.get(key) ?? []).filter((at) => at > now - this.withinMs);
  }

  private tidy(now: number): void {
    for (const key of this.moments.keys()) if (this.recent(key, now).length === 0) this.moments.delete(key);
  }
}
