/** A day as text, since a date without a zone would be read in that of the service. */
export const DAY = (column: string): string => `to_char(${column}, 'YYYY-MM-DD')`;

/** Of a row `t` of integrity_test. */
export const TEST_COLUMNS = `t.at, t.by, t.start_kpa AS "startKpa", t.minutes, t.decay_kpa_min AS "decayKpaMin", t.control_limit_kpa_min AS "controlLimitKpaMin", t.lrv, t.outcome, t.reasons`;

/** Of a row `r` of fibre_repair with its position `p`. */
export const REPAIR_COLUMNS = `r.at, p.name AS "positionName", r.fibres, r.area_lost_m2 AS "areaLostM2", r.by`;

/** Of a row `c` of calibration with its position `p`. */
export const CALIBRATION_COLUMNS = `c.at, p.name AS "positionName", c.signal, c.unit, c.tolerance, c.worst_as_found AS "worstAsFound", c.as_found AS "asFound",
  c.worst_as_left AS "worstAsLeft", c.as_left AS "asLeft", c.reference_instrument AS "referenceInstrument", c.certificate_no AS "certificateNo", ${DAY('c.next_on')} AS "nextOn", c.by`;

/** Of a row `b` of breakdown with its job `j`. */
export const BREAKDOWN_COLUMNS = `j.no AS "jobNo", j.title, b.severity, b.noticed_at AS "noticedAt", b.down_from AS "downFrom", b.restored_at AS "restoredAt", b.cause, b.remedy`;
