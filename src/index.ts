/** The library: everything another program may call. Same functions as the page and the command line. */
export { readProject, readProjectValue, type ReadNote, type ReadResult } from './project/read.ts';
export { writeProject } from './project/write.ts';
export {
  allPaths,
  checkValue,
  describePath,
  getPath,
  setPath,
  setText,
  type SetResult,
} from './project/path.ts';
export type { FieldDescription } from './project/tree.ts';
export type { FieldError } from './project/words.ts';
export { designOf, withBuild } from './project/builds.ts';
export { catalogue, type CatalogueEntry } from './project/catalogue.ts';
export {
  SCHEMA_VERSION,
  type Battery,
  type BladeStation,
  type Brief,
  type Build,
  type Controller,
  type Craft,
  type Design,
  type Duct,
  type Fan,
  type Material,
  type Motor,
  type Printer,
  type Project,
  type Section,
  type Stator,
} from './project/schema.ts';

export { assess, type AssessOptions } from './assess/assess.ts';
export { ductFlowOf, type DuctFlowAnswer, type DuctFlowResult } from './assess/lip-flow.ts';
export type { Assessment, Comparison, FanPoint, Help, Reason, Remark } from './assess/types.ts';
export type { Interval } from './quantities/interval.ts';
export { geometryFaults, type GeometryFault } from './shape/faults.ts';

export { atmosphere, type Air } from './air/atmosphere.ts';
export { designBlade, type BladeDesign, type DesignRequest, type DesignResult } from './air/design.ts';
export { runFan, type FanAir, type FanRun } from './air/fan.ts';
export { flightMap, mapAt, type FlightMap, type FlightMapReach, type MapPoint } from './air/flight-map.ts';
export { loadingLimits, type LoadingLimit } from './air/limits.ts';
export { passageOf, type InflowProfile, type Passage } from './air/passage.ts';
export {
  enoughForPolar,
  polarAt,
  polarTable,
  readPolarCsv,
  type PolarCurve,
  type PolarPoint,
  type PolarResult,
  type PolarTable,
} from './air/polar.ts';
export { rotorOfFan, rotorOfTable, type BladeTable, type RotorAir } from './air/rotor.ts';
export type { PrintEffect, PrintStation } from './assess/print-effect.ts';
export {
  bossDiameter,
  holeDiameter,
  matingGap,
  pinDiameter,
  type HoleFit,
  type MateFit,
} from './print/fits.ts';
export { printedBlade, printedSection, type PrintedBlade, type PrintedStation } from './print/printed-fan.ts';
export { thinnestBlade, type ThinnestBlade } from './print/thinnest.ts';
export { materialAndTime, type MaterialTime, type SolidLayer } from './print/material-time.ts';
export { COUPON, profileFromCoupon, readCouponReadings, type CouponReadings } from './print/coupon.ts';
export { couponMesh } from './make/coupon.ts';
export { smallestFan, type SmallestFan } from './study/smallest-fan.ts';
export { designForProject, type DesignWish, type ProjectDesign } from './study/design.ts';
export { propose, type Proposal, type SixAnswers } from './study/propose.ts';
export {
  fanParts,
  runProjectFan,
  runRotor,
  type FanLimit,
  type FanParts,
  type SingleFan,
} from './study/single-fan.ts';
export { namedSection, type NamedSection } from './study/named-section.ts';

export { benchAnswer } from './balance/bench.ts';
export { benchCard, type BenchCard, type CardStep } from './balance/card.ts';
export { knifeEdge, splitCorrection, type Moment, type Split } from './balance/correction.ts';
export { GRADES, permissibleEccentricity, permissibleUnbalance } from './balance/grade.ts';
export { bestOrder, type BladeOrder } from './balance/order.ts';
export { printMany, type ManyRotors } from './balance/monte-carlo.ts';
export { rotorBalance, rotorScatterOf } from './balance/rotor-balance.ts';
export { readRunsCsv, type ReadRuns } from './balance/runs-csv.ts';
export { readTrialRuns, type TrialAnswer } from './balance/trial-runs.ts';
export type { BalanceAnswer, BenchAnswer, OrderAnswer, RotorAtWork, Workshop } from './balance/types.ts';

export { climbOf, type Climb } from './craft/climb.ts';
export { controlOf, type Axis, type Control, type FanReach } from './craft/control.ts';
export { flownOf, type Flown } from './craft/flight.ts';
export { placementOf, type Placement, type PlacementOptions } from './craft/placement.ts';
export {
  hoverControl,
  inWind,
  windLimits,
  type From,
  type WindLimits,
  type WindState,
} from './craft/wind.ts';
export type { DriveLimit, DriveLimits } from './drive/limit-types.ts';
export { motorFromReadings, type MotorFromReadings, type NoLoadReading } from './drive/motor-readings.ts';
export { typicalMotor, type TypicalMotor } from './drive/typical-motor.ts';

export { batteryStudy, type BatteryChoice, type BatteryStudy } from './study/battery-choice.ts';
export { ductOrOpen, type DuctOrOpen, type WidthChoice, type WidthPair } from './study/duct-or-open.ts';
export { radialGrowth, type RotorDesign } from './strength/rotor.ts';
export { aWeighting } from './sound/weighting.ts';
export { levelDifference, type Heard } from './sound/difference.ts';
export { sumLevels, type Listener } from './sound/levels.ts';
export { synthesize, wavFile } from './sound/synthesis.ts';
export type { Sound, SoundAt } from './sound/types.ts';
export { rotorStrength, type StrengthAsk } from './strength/strength.ts';
export type { FailureMode, Strength } from './strength/types.ts';
export { largerFan, projectLimits, type LargerFanOptions } from './study/larger-fan.ts';
export type { FanSize, LargerFan } from './study/larger-fan-types.ts';
export { countStudy, withCounts, type CountChoice, type CountStudy } from './study/blade-vane-count.ts';
export { compareSound, openedProject, soundAtThrust, type SoundComparison } from './study/sound-compare.ts';
export { compareStands, type Stand, type StandResult } from './study/layouts.ts';
export {
  makeOrBuy,
  type BoughtUnit,
  type FanSet,
  type MakeOrBuy,
  type PrintCosts,
} from './study/make-or-buy.ts';
export { boughtOf, costsOf } from './study/purchases.ts';
export { massPlace, type MassPlace } from './study/mass-place.ts';
export { shortfallOf, type Cause, type Shortfall } from './study/shortfall.ts';
export { sizeSteps, sizeStudy, usualTips } from './study/size.ts';
export { frontOf, spreadOf } from './study/size-front.ts';
export { sizedProject } from './study/size-try.ts';
export type { SizeCell, SizeDesign, SizeMark, SizeOptions, SizeStudy } from './study/size-types.ts';
export { SIZE_MARKS } from './study/size-words.ts';
export { flownProject } from './study/tried.ts';
export { controlLeft, windStood, type ControlLeft, type WindStood } from './study/whole-craft.ts';

export { loadKernel, type Kernel } from './make/kernel.ts';
export { assemble, type Assembly, type Piece } from './make/assembly.ts';
export { checkFit, type FitCheck, type FitOptions, type Meeting } from './make/interference.ts';
export { checkProject } from './make/interference-project.ts';
export { craftFrameFaults, framePlanOf, frameVolumesOf } from './craft/frame.ts';
export type { FramePlan, FrameVolumes } from './shape/frame.ts';
export { make, type Made, type MadePart, type MakeOptions } from './make/make.ts';
export { isGeometryFaultError, type GeometryFaultError } from './make/part.ts';
export { writeStl } from './make/stl.ts';
export { layOut, type Bed, type BedPlace } from './make/layout.ts';
export { craftPlaces } from './make/places.ts';
export { threeMfFiles, writeThreeMf, type NamedFile, type ThreeMfOptions } from './make/threemf.ts';
export { fanDrawing } from './make/drawing/fan.ts';
export { writePdf } from './make/drawing/pdf.ts';
export type { Sheet } from './make/drawing/sheet.ts';
export { writeSvg } from './make/drawing/svg.ts';

export { importSteps, importTable, type Imported, type ImportOptions } from './bench/import.ts';
export { reduceRun } from './bench/reduce.ts';
export type { HoverShare, Reduced, ReducedPoint } from './bench/types.ts';
export { compareRun } from './bench/compare.ts';
export type { BenchComparison } from './bench/compare-types.ts';
export { benchRunSchema, type BenchRun } from './project/bench.ts';
export { textFromBytes } from './project/table.ts';
export { tachometer, type TachRequest, type TachResult, type TrackPoint } from './bench/tach/tach.ts';
export { speedRangeOf } from './bench/tach/range.ts';
export { toneChange, tonesOf, type Tone, type ToneChange, type Tones } from './bench/tach/tones.ts';
export { readWav, type WavRead } from './bench/tach/wav.ts';
export { readShakeCsv, type ShakeLog } from './bench/tach/shake-csv.ts';
export { shakeLevel, type ShakeAnswer } from './bench/tach/shake.ts';

export { diagnose } from './bench/diagnose/diagnose.ts';
export type { CauseFinding, Diagnosis, NextMeasurement } from './bench/diagnose/types.ts';
export { acceptCause, inheritedDesign, type Accepted, type AcceptedCause } from './bench/calibrate.ts';

export { sobolPoints } from './numerics/sobol.ts';
export { sobolIndices, type Shares } from './study/sensitivity.ts';
export { unknownsOf, type Spreads, type Unknown, type UnknownId } from './study/unknowns.ts';
export { uncertaintyOf, type UncertaintyOptions } from './study/uncertainty.ts';
export type { Driver, Uncertainty } from './study/uncertainty-types.ts';
export { figuresOf, type Figures, type FiguresOptions } from './study/figures.ts';
export { slopesOf, type Slope } from './study/slopes.ts';
export {
  designAt,
  evenValues,
  figuresIn,
  sweepBlocks,
  sweepPlan,
  type SweepBlock,
  type SweepPlan,
  type Vary,
} from './study/sweep.ts';
export { sweepHeading, sweepLines, tableState } from './study/sweep-table.ts';
export { inOrder, pooledHere, type StudyPool } from './study/pool/pool.ts';
export { runTask, sweepTasks, type StudyTask, type TaskAnswer } from './study/pool/task.ts';
export {
  ask,
  search,
  searchFrom,
  tell,
  type Member,
  type SearchState,
  type Variable,
} from './study/optimise.ts';
export { robustFigures, type RobustFigures } from './study/best.ts';
export {
  bestAnswer,
  bestFrom,
  bestRounds,
  type BestAnswer,
  type BestProposal,
  type ProposedChange,
} from './study/best-run.ts';
