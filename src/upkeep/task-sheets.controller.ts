import { Body, Controller, Get, HttpCode, Param, ParseIntPipe, ParseUUIDPipe, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, EtagInterceptor, type KeyedRequest, RequestKey, TakesRequestKey, TakesVersion, VersionSeen } from '../app/index.js';
import { SheetSuggestions } from './sheet-suggestions.js';
import {
  EndTaskSheetDto,
  type SheetSuggestionsView,
  type SheetVersionView,
  TaskSheetContentDto,
  TaskSheetDto,
  type TaskSheetsPageView,
  TaskSheetsQuery,
  type TaskSheetView,
} from './task-sheets.dto.js';
import { TaskSheets } from './task-sheets.js';

@ApiTags('upkeep')
@Controller('task-sheets')
@UseInterceptors(EtagInterceptor)
export class TaskSheetsController {
  constructor(
    private readonly sheets: TaskSheets,
    private readonly suggestions: SheetSuggestions,
  ) {}

  @Get()
  @Allow('manager', 'storekeeper', 'technician')
  list(@Query() query: TaskSheetsQuery): Promise<TaskSheetsPageView> {
    return this.sheets.list(query);
  }

  /** A sheet with its latest version, and which versions there are */
  @Get(':id')
  @Allow('manager', 'storekeeper', 'technician')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<TaskSheetView> {
    return this.sheets.read(id);
  }

  @Get(':id/versions/:no')
  @Allow('manager', 'storekeeper', 'technician')
  readVersion(@Param('id', ParseUUIDPipe) id: string, @Param('no', ParseIntPipe) no: number): Promise<SheetVersionView> {
    return this.sheets.readVersion(id, no);
  }

  /** What finished jobs say against the sheet: usual minutes, parts asked but not used, parts used but not asked. Nothing is changed */
  @Get(':id/suggestions')
  @Allow('manager', 'storekeeper', 'technician')
  readSuggestions(@Param('id', ParseUUIDPipe) id: string): Promise<SheetSuggestionsView> {
    return this.suggestions.read(id);
  }

  @Post()
  @Allow('manager')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: TaskSheetDto): Promise<TaskSheetView> {
    return this.sheets.create(caller, key, input);
  }

  /** Writes the next version, which new work follows; work that was made before keeps its own */
  @Put(':id')
  @Allow('manager')
  @TakesVersion()
  edit(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() content: TaskSheetContentDto,
  ): Promise<TaskSheetView> {
    return this.sheets.edit(caller, id, version, content);
  }

  @Post(':id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndTaskSheetDto): Promise<void> {
    return this.sheets.end(id, version, on);
  }
}
