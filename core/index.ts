/** The door: all that server, stations and tests may use, named. */
export { ADJUSTERS, leanWord, otherSide, pivotWord, SIDES } from './frame.ts';
export type { Adjuster, LeanWord, PivotWord, Side } from './frame.ts';
export { deg, degAsin, degAtan, mm, rad, SAME_DEG, SAME_MM, sinDeg, tanDeg, toDeg, toRad } from './units.ts';
export type { Deg, Mm, Rad } from './units.ts';
export {
  ALL_WELL,
  CLIENT_SPAN,
  CLOSE,
  isNoCode,
  LEFT_OUT_BECAUSE,
  LIMIT,
  MESSAGE,
  NO_CODES,
  PROTOCOL,
  READ_ONLY,
  readStatus,
  STANDINGS,
  STATION_ROLES,
  stationOf,
} from './wire.ts';
export type {
  BackupStatus,
  Found,
  FoundSession,
  LeftOutBecause,
  MoveChoice,
  MoveState,
  NoCode,
  ReadOnly,
  ServerStatus,
  Standing,
  StationRole,
} from './wire.ts';
export { isKind, misfitOf, parseLenient, parseStrict } from './record/facts.ts';
export type { Author, Envelope, Fact, FactOf, Misfit, Parsed } from './record/facts.ts';
export {
  ASKED_ITEMS,
  KIND_NAMES,
  KINDS,
  newestVersion,
  READY_ITEMS,
  ROLES,
  SERVICES,
  SOLE_STANDARDS,
} from './record/kinds.ts';
export type { Kind, Payload, Role } from './record/kinds.ts';
export { admit, mayStrike, mayWrite } from './record/admit.ts';
export type { KnownFacts, Verdict, Writer } from './record/admit.ts';
export { PERSONAL, personalIn, sameButPersonal, withoutPersonal } from './record/personal.ts';
export { sameJson } from './record/same.ts';
export { readBoot, sameModel } from './record/models.ts';
export type { CatalogueBoot, ReadBoot } from './record/models.ts';
export { MODEL_COLUMNS, modelTable, MOST_FAULTS, readModelTable } from './record/model-table.ts';
export type { CellFault, ReadTable } from './record/model-table.ts';
export { REFUSALS } from './record/refusals.ts';
export type { Refusal, RefusalCode } from './record/refusals.ts';
export {
  DEFAULT_SETTINGS,
  ENTERED_NAMES,
  ENTERED_SETTINGS,
  RISING,
  SETTING_NAMES,
  SETTINGS,
} from './record/settings.ts';
export type { EnteredName, SettingName, Settings } from './record/settings.ts';
export { FLOOR_ROLES, journeyOf, roleOfWork, stepsAhead, stepsOfNew, turnOf, WORKS } from './guide/turns.ts';
export type { FloorRole, Journey, ShopWays, Turn, Work } from './guide/turns.ts';
export { LEARNED_TURNS, waysOf } from './guide/ways.ts';
export { minutesAt } from './maths/duration.ts';
export { Forecaster, PROMISE } from './maths/forecast.ts';
export type { Arrivals, OpenJob as ForecastJob, RemainingStep } from './maths/forecast.ts';
export { momentAfter, workingMinutes } from './maths/hours.ts';
export type { OpenSpan } from './maths/hours.ts';
export { workedTurns } from './maths/worked.ts';
export type { TurnTimes, Worked } from './maths/worked.ts';
export { besideOf, bucketFor, cut, dayOf, dayText, periodOf, PERIODS } from './maths/period.ts';
export type { BucketOf, Period, PeriodOf } from './maths/period.ts';
export { sampleQuantile, wilson } from './maths/share.ts';
export type { Share } from './maths/share.ts';
export { tallyOf } from './guide/tally.ts';
export type { ClosedCuff, LeftAs, Tally } from './guide/tally.ts';
export { allServices, evenOf, MANY_MOVES, NOTHING_COUNTED, STAGES, sumOf } from './guide/numbers.ts';
export type {
  Bucket,
  ByService,
  Counted,
  Halfway,
  NumbersTold,
  Service,
  Stage,
  StageTimes,
  Times,
} from './guide/numbers.ts';
export { NUMBERS_COLUMNS, numbersTable } from './guide/numbers-table.ts';
export { jobOf, wallOf } from './guide/board.ts';
export type { JobFacts, JobRow, WallRow } from './guide/board.ts';
export type {
  Caution,
  Contact,
  CuffPlan,
  CuffVerdict,
  Extension,
  ForeAftPlan,
  Move,
  NextAction,
  Plan,
  Pressure,
  Problem,
  ReadingView,
  Reason,
  ReasonCode,
  Round,
  ScrewLengths,
  ScrewsPlan,
  SidePlan,
  SolePlan,
  StancePlan,
  Step,
  StepName,
  StepStatus,
} from './guide/shape.ts';
export { STEP_NAMES } from './guide/shape.ts';
export { course, plan } from './guide/plan.ts';
export { doubtsOf } from './guide/doubt.ts';
export type { Doubt } from './guide/doubt.ts';
export { explain, EXPLANATION_FORMAT } from './guide/explain.ts';
export type { Explanation } from './guide/explain.ts';
export { Z90 } from './guide/explain/formula.ts';
export type { Input, Interval, NumberPath, Unit } from './guide/explain/formula.ts';
export { legOf, reach } from './guide/reach.ts';
export type { BootModel, KnownLeg, Leg, ModelReach } from './guide/reach.ts';
export { lessonsOf } from './guide/lessons.ts';
export type { Lesson, SeenLeg, SideLessons } from './guide/lessons.ts';
export type {
  DecisionTold,
  FarOffTold,
  LearnedTold,
  LegTold,
  ModelTold,
  MoveTold,
  ScoreTold,
} from './guide/learned-told.ts';
export { addedDeg, CARRY_ERROR, carried } from './guide/carry.ts';
export type { CarriedLeg, EarlierLeg } from './guide/carry.ts';
export {
  doubtOf,
  FAR_OFF,
  Hierarchy,
  isFarOff,
  learnFrom,
  measuredResponse,
  ofModel,
  spreadsOf,
  together,
} from './maths/learned.ts';
export type {
  BootSeen,
  MoveSeen,
  ReadStop,
  Response as BootResponse,
  ResponseSeen,
  Spreads,
} from './maths/learned.ts';
export { settingsOf } from './guide/side.ts';
export { basisFor } from './record/basis.ts';
export type { Draft } from './record/basis.ts';
export { catalogue } from './maths/catalogue.ts';
export type { Calculation, Calculations, Given } from './maths/catalogue.ts';
export type { AdjusterReach, HardwareNow, Pair, Stop } from './maths/hardware.ts';
export { resultOf, isFinished, sigmaOf, studyTable, turnsIn } from './guide/study.ts';
export type { Agreement } from './maths/repeatability.ts';
export type { StudyResult, StudyTurn, Sure } from './maths/study.ts';
export { STUDIED, STUDY_BOUNDS, turnsOf } from './record/study.ts';
export { StudyShape } from './record/study-shape.ts';
export type { Study, StudyOf } from './record/study.ts';
export { SOLE_PRESETS } from './maths/standards.ts';
export type { SolePreset, ZoneLimits } from './maths/standards.ts';
export { bare } from './photo/bare.ts';
export type { BareResult } from './photo/bare.ts';
export type { BarePhoto, PhotoType } from './photo/bytes.ts';
export { calibrated, inOrder, rectangle } from './photo/calibration.ts';
export type { Calibration, Degenerate } from './photo/calibration.ts';
export { angleBetween, footOn, gapOfPoints, gapToLine, PICK_PX } from './photo/measure.ts';
export type { Measured } from './photo/measure.ts';
export type { Corners, Line, Point } from './photo/point.ts';
export { typedNumber, typedPlaces } from './record/typed.ts';
export type { TypedPlace } from './record/typed.ts';
export { readSession, SESSION_FORMAT } from './record/file.ts';
export type { Person, ReadFile, SessionFile } from './record/file.ts';
export { Log } from './record/log.ts';
export type { State } from './record/log.ts';
