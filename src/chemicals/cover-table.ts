import type { TankCoverView } from './chemicals.dto.js';

/** Columns of the table of tanks, each with what stands in it. */
const COLUMNS = {
  client: (tank) => tank.clientName,
  site: (tank) => tank.siteName,
  skid: (tank) => tank.skidName,
  tank: (tank) => tank.tankName,
  chemical: (tank) => tank.chemical,
  supplied_by: (tank) => tank.suppliedBy,
  standing: (tank) => tank.standing,
  volume_l: (tank) => rounded(tank.volumeL, 1),
  capacity_l: (tank) => tank.capacityL,
  heel_l: (tank) => tank.heelL,
  strength_g_l: (tank) => rounded(tank.strengthGL, 1),
  daily_use_l: (tank) => rounded(tank.dailyUseL, 2),
  cover_days_p10: (tank) => rounded(tank.earlyDays, 1),
  cover_days_p50: (tank) => rounded(tank.likelyDays, 1),
  cover_days_p90: (tank) => rounded(tank.lateDays, 1),
  runs_out_on: (tank) => tank.runOutOn,
  expires_on: (tank) => tank.expiresOn,
  last_dip_at: (tank) => tank.lastDipAt?.toISOString() ?? null,
  balance: (tank) => tank.balanceState,
  drift_l_day: (tank) => rounded(tank.driftLDay, 2),
  balance_in_words: (tank) => tank.balanceWords,
} as const satisfies Record<string, (tank: TankCoverView) => string | number | null>;

export const COVER_COLUMNS = Object.keys(COLUMNS);

export function toTableRow(tank: TankCoverView): Record<string, string | number | null> {
  return Object.fromEntries(Object.entries(COLUMNS).map(([name, cell]) => [name, cell(tank)]));
}

function rounded(value: number | null, digits: number): number | null {
  return value === null ? null : Number(value.toFixed(digits));
}
