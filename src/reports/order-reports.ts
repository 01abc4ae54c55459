import { Injectable } from '@nestjs/common';
import { Clock } from '../app/index.js';
import { OrderList } from '../store/index.js';
import { orderReport } from './core/order-report.js';
import type { ReportFile } from './report-file.js';
import { ReportRenderer } from './report-renderer.js';

/** A purchase order stands in no site: its times are those of the world's clock. */
const TIME_ZONE = 'UTC';

/** Purchase orders on paper. */
@Injectable()
export class OrderReports {
  constructor(
    private readonly orders: OrderList,
    private readonly renderer: ReportRenderer,
    private readonly clock: Clock,
  ) {}

  async of(orderId: string): Promise<ReportFile> {
    const order = await this.orders.read(orderId);
    const pdf = await this.renderer.render(orderReport(order, { now: this.clock.now(), timeZone: TIME_ZONE }));
    return { name: `order ${order.no}.pdf`, pdf };
  }
}
