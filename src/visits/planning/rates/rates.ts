import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, type FieldProblem, faultIn, InvalidRequest, type Reader, viewOf } from '../../../app/index.js';
import type { PlanRates } from '../../core/plan-facts/plan-prices.js';
import { type PlanRatesDto, PlanRatesView } from './rates.dto.js';
import { editRates, type RatesRow, readRates } from './rates.repository.js';

const AMOUNTS = ['workHour', 'travelHour', 'overtimeHour', 'kilometre', 'nightAway'] as const;

/** What an hour, a kilometre and a night cost the company. */
@Injectable()
export class Rates {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async read(): Promise<PlanRatesView> {
    return toView(await readRates(this.database.prisma));
  }

  edit(caller: Pick<Caller, 'name'>, version: number, input: PlanRatesDto): Promise<PlanRatesView> {
    checkRates(input);
    const { currency, workHour = null, travelHour = null, overtimeHour = null, kilometre = null, nightAway = null } = input;
    return this.database.write(async (tx) => {
      const amounts = { workHour, travelHour, overtimeHour, kilometre, nightAway };
      await editRates(tx, version, { currency, ...amounts, by: caller.name, at: this.clock.now() });
      return toView(await readRates(tx));
    });
  }

  /** As plans weigh by them; null: costs count in hours. */
  async forPlans(reader: Reader): Promise<{ rates: PlanRates | null; reckoningCurrency: string }> {
    const { row, reckoningCurrency } = await readRates(reader);
    return { rates: ratesOf(row), reckoningCurrency };
  }
}

function checkRates(input: PlanRatesDto): void {
  const missing = AMOUNTS.filter((name) => (input[name] ?? null) === null);
  if (missing.length > 0 && missing.length < AMOUNTS.length) {
    const problems = missing.map(
      (name): FieldProblem => ({ pointer: `#/${name}`, message: 'is missing: give all rates, 0 where something costs nothing, or none' }),
    );
    throw new InvalidRequest('Some rates are given and others are not', problems);
  }
  if (missing.length === 0 && Number(input.workHour) === 0)
    throw faultIn('workHour', 'must be above 0, since everything else is weighed against it; to count in hours leave all rates out');
}

function ratesOf(row: RatesRow | null): PlanRates | null {
  if (row === null || row.workHour === null) return null;
  const { currency, workHour, travelHour, overtimeHour, kilometre, nightAway } = row;
  return {
    currency,
    workHour: Number(workHour),
    travelHour: Number(travelHour),
    overtimeHour: Number(overtimeHour),
    kilometre: Number(kilometre),
    nightAway: Number(nightAway),
  };
}

function toView({ row, reckoningCurrency }: Awaited<ReturnType<typeof readRates>>): PlanRatesView {
  return viewOf(PlanRatesView, {
    currency: row?.currency ?? reckoningCurrency,
    workHour: row?.workHour?.toFixed() ?? null,
    travelHour: row?.travelHour?.toFixed() ?? null,
    overtimeHour: row?.overtimeHour?.toFixed() ?? null,
    kilometre: row?.kilometre?.toFixed() ?? null,
    nightAway: row?.nightAway?.toFixed() ?? null,
    waiting: waitingInWords(ratesOf(row), reckoningCurrency),
    by: row?.by ?? null,
    at: row?.at ?? null,
    version: row?.version ?? 0,
  });
}

function waitingInWords(rates: PlanRates | null, reckoningCurrency: string): string {
  if (rates === null) return 'No rates are given, so costs of plans count in hours, and what waiting costs in money is not weighed.';
  if (rates.currency !== reckoningCurrency)
    return `What waiting costs is reckoned in ${reckoningCurrency} and the rates are in ${rates.currency}: it is not weighed. Enter the rates in ${reckoningCurrency}.`;
  return 'Work that a forecast asks for is weighed by what waiting costs, where the prices of its item and site are known.';
}
