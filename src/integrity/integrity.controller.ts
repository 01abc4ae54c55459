import { Body, Controller, Get, Headers, Param, ParseUUIDPipe, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import {
  Allow,
  AllowSignedIn,
  type Caller,
  CurrentCaller,
  EtagInterceptor,
  type KeyedRequest,
  PageQuery,
  RequestKey,
  TakesRequestKey,
  TakesVersion,
} from '../app/index.js';
import {
  FibreRepairDto,
  type FibreRepairsPageView,
  type FibreRepairView,
  type IntegrityRecordView,
  IntegritySetupDto,
  type IntegritySetupView,
  IntegrityTestDto,
  type IntegrityTestsPageView,
  type IntegrityTestView,
} from './integrity.dto.js';
import { IntegrityRecord } from './integrity-record.js';
import { RecordIntegrity } from './record-integrity.js';

@ApiTags('integrity')
@Controller('skids/:skidId')
@UseInterceptors(EtagInterceptor)
export class IntegrityController {
  constructor(
    private readonly integrity: IntegrityRecord,
    private readonly recording: RecordIntegrity,
  ) {}

  /** What the integrity tests of the skid are judged with */
  @Get('integrity-setup')
  @Allow('manager', 'storekeeper', 'technician')
  setup(@Param('skidId', ParseUUIDPipe) skidId: string): Promise<IntegritySetupView> {
    return this.integrity.setup(skidId);
  }

  @Put('integrity-setup')
  @Allow('manager')
  @TakesVersion()
  saveSetup(
    @Param('skidId', ParseUUIDPipe) skidId: string,
    @Headers('if-match') ifMatch: string | undefined,
    @Body() input: IntegritySetupDto,
  ): Promise<IntegritySetupView> {
    return this.integrity.saveSetup(skidId, input, ifMatch);
  }

  /** Integrity tests, the latest first */
  @Get('integrity-tests')
  @AllowSignedIn()
  tests(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string, @Query() query: PageQuery): Promise<IntegrityTestsPageView> {
    return this.integrity.tests(caller, skidId, query);
  }

  /** Records a pressure-decay test and judges it */
  @Post('integrity-tests')
  @Allow('manager', 'technician')
  @TakesRequestKey()
  test(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('skidId', ParseUUIDPipe) skidId: string,
    @Body() input: IntegrityTestDto,
  ): Promise<IntegrityTestView> {
    return this.recording.recordTest(caller, key, skidId, input);
  }

  /** Tests, closed fibres and what they add up to */
  @Get('integrity')
  @AllowSignedIn()
  record(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string): Promise<IntegrityRecordView> {
    return this.integrity.read(caller, skidId);
  }

  /** Fibres that were closed, the latest first */
  @Get('fibre-repairs')
  @AllowSignedIn()
  repairs(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string, @Query() query: PageQuery): Promise<FibreRepairsPageView> {
    return this.integrity.repairs(caller, skidId, query);
  }

  /** Records fibres of a module that were closed */
  @Post('fibre-repairs')
  @Allow('manager', 'technician')
  @TakesRequestKey()
  repair(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('skidId', ParseUUIDPipe) skidId: string,
    @Body() input: FibreRepairDto,
  ): Promise<FibreRepairView> {
    return this.recording.recordRepair(caller, key, skidId, input);
  }
}
