import { Injectable } from '@nestjs/common';

/** What a tank that we fill asks for. */
export interface TankNeed {
  readonly tankName: string;
  readonly itemId: string;
  readonly siteId: string;
  readonly dailyUseL: number;
  readonly heelL: number;
  readonly capacityL: number;
  readonly runOutOn: string | null;
}

/** What tanks ask for: told by the stage that keeps them, which comes after this one. */
@Injectable()
export class TankNeeds {
  private ask: () => Promise<readonly TankNeed[]> = async () => [];

  askedOf(ask: () => Promise<readonly TankNeed[]>): void {
    this.ask = ask;
  }

  all(): Promise<readonly TankNeed[]> {
    return this.ask();
  }
}
