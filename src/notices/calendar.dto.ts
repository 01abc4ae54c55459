import { IsName, View } from '../app/index.js';

export class CalendarAddressDto {
  /** Which program or device reads it, in words */
  @IsName()
  name!: string;
}

export class CalendarAddressView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly createdAt!: Date;
  /** When a calendar program last read it */
  readonly lastReadAt!: Date | null;
}

export class CalendarAddressesView extends View {
  readonly items!: CalendarAddressView[];
}

export class NewCalendarAddressView extends View {
  readonly address!: CalendarAddressView;
  /** Of the feed, without the host; shown this once: whoever has it reads the visits */
  readonly path!: string;
}
