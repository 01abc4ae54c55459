import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, NotFound, ServiceSettings, viewOf } from '../app/index.js';
import { hashOfToken, newToken } from '../people/index.js';
import { dayPlus } from '../shared/day.js';
import { type CalendarAddressDto, CalendarAddressesView, CalendarAddressView, NewCalendarAddressView } from './calendar.dto.js';
import { type CalendarAddressRow, CalendarRepository } from './calendar.repository.js';
import { calendarText } from './calendar-text.js';
import { noticeWords } from './core/words.js';

const PAST_DAYS = 60;
const AHEAD_DAYS = 400;
/** A few programs and devices; more are forgotten ones. */
const MOST_ADDRESSES = 10;

/** Private addresses at which calendar programs read a person's visits without signing in. */
@Injectable()
export class Calendars {
  constructor(
    private readonly repository: CalendarRepository,
    private readonly settings: ServiceSettings,
    private readonly clock: Clock,
  ) {}

  async list(caller: Caller): Promise<CalendarAddressesView> {
    return viewOf(CalendarAddressesView, { items: (await this.repository.list(caller.id)).map(toView) });
  }

  async create(caller: Caller, { name }: CalendarAddressDto): Promise<NewCalendarAddressView> {
    if ((await this.repository.count(caller.id)) >= MOST_ADDRESSES) {
      throw new Conflict(`You have ${MOST_ADDRESSES} addresses, as many as a person may have. Withdraw one that nothing reads any more`);
    }
    const { token, tokenHash } = newToken();
    const address = await this.repository.create({ personId: caller.id, name, tokenHash, createdAt: this.clock.now() });
    return viewOf(NewCalendarAddressView, { address: toView(address), path: `/api/calendar/${token}.ics` });
  }

  async withdraw(caller: Caller, id: string): Promise<void> {
    if (!(await this.repository.end(caller.id, id, this.clock.now()))) throw new NotFound('calendar address', id);
  }

  /** The calendar at an address; null: there is none, or not any more. */
  async read(file: string): Promise<string | null> {
    const token = /^([\w-]{43})\.ics$/.exec(file)?.[1];
    const now = this.clock.now();
    const caller = token === undefined ? null : await this.repository.reader(hashOfToken(token), now);
    if (caller === null) return null;
    const today = now.toISOString().slice(0, 10);
    const visits = await this.repository.visits(caller, dayPlus(today, -PAST_DAYS), dayPlus(today, AHEAD_DAYS));
    const { publicUrl } = this.settings;
    return calendarText(visits, { name: noticeWords.calendar.name(caller.name), forClient: caller.role === 'client', publicUrl, now });
  }
}

function toView({ id, name, createdAt, lastReadAt }: CalendarAddressRow): CalendarAddressView {
  return viewOf(CalendarAddressView, { id, name, createdAt, lastReadAt });
}
