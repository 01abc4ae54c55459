import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, AllowSignedIn, type Caller, CurrentCaller, type KeyedRequest, PageQuery, RequestKey, TakesRequestKey } from '../app/index.js';
import { CalibrationDto, type CalibrationFedView, type CalibrationsPageView, type CalibrationView } from './calibrations.dto.js';
import { Calibrations } from './calibrations.js';
import { RecordCalibration } from './record-calibration.js';

@ApiTags('calibrations')
@Controller()
export class CalibrationsController {
  constructor(
    private readonly calibrations: Calibrations,
    private readonly recording: RecordCalibration,
  ) {}

  /** Compares the instrument at the position with a reference; one that was off puts the readings since its last good check in doubt */
  @Post('positions/:positionId/calibrations')
  @Allow('manager', 'technician')
  @TakesRequestKey()
  record(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('positionId', ParseUUIDPipe) positionId: string,
    @Body() input: CalibrationDto,
  ): Promise<CalibrationView> {
    return this.recording.run(caller, key, positionId, input);
  }

  /** The latest first */
  @Get('positions/:positionId/calibrations')
  @AllowSignedIn()
  ofPosition(
    @CurrentCaller() caller: Caller,
    @Param('positionId', ParseUUIDPipe) positionId: string,
    @Query() query: PageQuery,
  ): Promise<CalibrationsPageView> {
    return this.calibrations.ofPosition(caller, positionId, query);
  }

  /** Of all instruments of the skid, the latest first */
  @Get('skids/:skidId/calibrations')
  @AllowSignedIn()
  ofSkid(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string, @Query() query: PageQuery): Promise<CalibrationsPageView> {
    return this.calibrations.ofSkid(caller, skidId, query);
  }

  @Get('calibrations/:calibrationId')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('calibrationId', ParseUUIDPipe) id: string): Promise<CalibrationView> {
    return this.calibrations.read(caller, id);
  }

  /** Days of condition, forecasts and due tasks that rest on readings which the calibration puts in doubt */
  @Get('calibrations/:calibrationId/fed')
  @AllowSignedIn()
  fed(@CurrentCaller() caller: Caller, @Param('calibrationId', ParseUUIDPipe) id: string): Promise<CalibrationFedView> {
    return this.calibrations.fed(caller, id);
  }
}
