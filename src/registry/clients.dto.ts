import { PartialType } from '@nestjs/swagger';
import { IsName, IsText, MayBeLeftOut, View } from '../app/index.js';

export class ClientDto {
  @IsName()
  name!: string;

  /** The client reads it too */
  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class ClientEditDto extends PartialType(ClientDto, { skipNullProperties: false }) {}

export class ClientView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly note!: string;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class ClientsPageView extends View {
  readonly items!: ClientView[];
  readonly next!: string | null;
}
