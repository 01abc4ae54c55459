/** Long enough to drive, ring back or hand over; short enough that a night with nobody on watch does not pass unnoticed. Common practice. */
export const TELL_AGAIN_MIN = 30;

/**
 * Which telling of a breakdown is due at a moment: the first (0) when it is reported, the next after each half hour. Tellings that nobody
 * wrote in time, since no worker ran, are left out: only the latest is of use.
 *
 * @example tellingNo(new Date('2026-11-25T10:00:00Z'), new Date('2026-11-25T11:10:00Z')) // => 2
 */
export function tellingNo(reportedAt: Date, now: Date): number {
  return Math.max(0, Math.floor((now.getTime() - reportedAt.getTime()) / (TELL_AGAIN_MIN * 60_000)));
}
