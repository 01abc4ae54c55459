import { Body, Controller, HttpCode, Param, ParseUUIDPipe, Post, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, EtagInterceptor } from '../../app/index.js';
import type { OrderView } from './order-views.dto.js';
import { ReceiveOrder } from './receive-order.js';
import { ReceiptDto, SupplierReturnDto, TakeBackDto } from './receiving.dto.js';
import { ReturnGoods } from './return-goods.js';

@ApiTags('orders')
@Controller('orders/:id')
@UseInterceptors(EtagInterceptor)
@Allow('manager', 'storekeeper')
export class ReceivingController {
  constructor(
    private readonly receiving: ReceiveOrder,
    private readonly returning: ReturnGoods,
  ) {}

  /** Receives a delivery, or a part of one. What is good goes into stock; when all has come the order is closed */
  @Post('receipts')
  @HttpCode(200)
  receive(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: ReceiptDto): Promise<OrderView> {
    return this.receiving.receive(caller, id, input);
  }

  /** Takes a receipt back that was entered wrongly, and what it put into stock with it */
  @Post('receipts/:receiptId/take-back')
  @HttpCode(200)
  takeBack(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @Param('receiptId', ParseUUIDPipe) receiptId: string,
    @Body() input: TakeBackDto,
  ): Promise<OrderView> {
    return this.receiving.takeBack(caller, id, receiptId, input);
  }

  /** Sends goods back to the supplier, out of stock; what is replaced is awaited again */
  @Post('returns')
  @HttpCode(200)
  giveBack(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: SupplierReturnDto): Promise<OrderView> {
    return this.returning.send(caller, id, input);
  }
}
