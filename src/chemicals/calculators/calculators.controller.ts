import { Body, Controller, HttpCode, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowSignedIn, faultIn, viewOf } from '../../app/index.js';
import { chemicalClass } from '../../shared/incompatibility.js';
import { cautionsFor } from '../core/cautions.js';
import { contactTime, type SegmentCt } from '../core/contact/contact-time.js';
import { doseSetting } from '../core/dose-setting.js';
import { makeBatch } from '../core/makeup/batch.js';
import { statedStrengthGL } from '../core/stated-strength.js';
import { meetings } from '../core/together.js';
import {
  BatchDto,
  BatchView,
  ContactTimeDto,
  ContactTimeView,
  DoseDto,
  DoseView,
  MeetingView,
  NeutraliserView,
  SegmentView,
  TogetherDto,
  TogetherView,
} from './calculators.dto.js';

const USUAL_STORAGE_C = 20;
const CT_SOURCE =
  'EPA 815-R-20-003 (2020), tables B-1 and B-2, read with temperature down, pH and chlorine up. What counts is what the local regulator asks for.';
const ACID_INTO_WATER = 'Always pour acid and caustic into water, slowly and with stirring, never water into them.';

/** Reckons and keeps nothing. */
@ApiTags('calculators')
@Controller('calculators')
@AllowSignedIn()
export class CalculatorsController {
  /** What a dosing pump must give for a dose */
  @Post('dose')
  @HttpCode(200)
  dose(@Body() input: DoseDto): DoseView {
    const { chemical, doseMgL, flowM3h, productValue: value, productBasis: basis, ageDays, storageC = USUAL_STORAGE_C } = input;
    const [densityKgL, pumpLh] = [input.densityKgL ?? null, input.pumpLh ?? null];
    const read = statedStrengthGL(chemical, { value, basis, densityKgL });
    if (read.kind === 'fault') throw faultIn(read.field === 'basis' ? 'productBasis' : read.field, read.message);
    const isAged = ageDays !== undefined && chemicalClass(chemical) === 'hypochlorite';
    const setting = doseSetting({ doseMgL, flowM3h, strengthGL: read.strengthGL, aged: isAged ? { days: ageDays, storageC } : null, pumpLh });
    if (setting === null) throw faultIn('productValue', 'a product without strength gives no dose');
    return viewOf(DoseView, { ...setting, cautions: cautionsFor(chemical, []) });
  }

  /** What goes into the tank of a CEB or CIP, and what neutralises the spent solution */
  @Post('batch')
  @HttpCode(200)
  batch(@Body() input: BatchDto): BatchView {
    const { chemical, volumeM3, targetMgL = null, targetPh = null, targetPercent = null, productValue: value, productBasis: basis, reagent } = input;
    const product = value === undefined ? null : { value, basis, densityKgL: input.densityKgL ?? null };
    const made = makeBatch({ chemical, volumeM3, targetMgL, targetPh, targetPercent, product, reagent });
    if (made.kind === 'fault') throw faultIn(made.field, made.message);
    const { pureKg, productL, monohydrateKg, productGL, neutralise, isLowerBound } = made;
    return viewOf(BatchView, {
      pureKg,
      productL,
      monohydrateKg,
      productGL,
      isLowerBound,
      neutralise: neutralise.map((each) => viewOf(NeutraliserView, each)),
      cautions: [
        ...(chemical === 'sodium hypochlorite' ? [] : [ACID_INTO_WATER]),
        ...cautionsFor(
          chemical,
          neutralise.map(({ name }) => name),
        ).filter((text) => !text.startsWith('Kept at')),
      ],
    });
  }

  /** CT and log inactivation of free chlorine after filtration */
  @Post('contact-time')
  @HttpCode(200)
  contact(@Body() { segments }: ContactTimeDto): ContactTimeView {
    const { giardiaLog, virusLog, segments: each } = contactTime(segments);
    return viewOf(ContactTimeView, { segments: each.map(segmentView), giardiaLog, virusLog, source: CT_SOURCE });
  }

  /** Whether chemicals may be kept in one tank, carried in one bay of a van, or used one after the other */
  @Post('together')
  @HttpCode(200)
  together(@Body() { way, chemicals }: TogetherDto): TogetherView {
    const met = meetings(way, chemicals);
    return viewOf(TogetherView, { allowed: met.length === 0, meetings: met.map((each) => viewOf(MeetingView, each)) });
  }
}

function segmentView({ t10Minutes, ct, required }: SegmentCt): SegmentView {
  const isRead = required.kind === 'required';
  return viewOf(SegmentView, {
    t10Minutes,
    ct,
    giardia3LogCt: isRead ? required.giardia3LogCt : null,
    virus4LogCt: isRead ? required.virus4LogCt : null,
    outside: isRead ? (required.giardia3LogCt === null ? 'The table for Giardia ends at pH 9' : null) : required.reason,
  });
}
