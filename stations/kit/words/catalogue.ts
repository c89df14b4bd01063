/** Words of the shop's catalogue of boots, and of the boots in it that would reach a leg. */
import type { CatalogueBoot, CellFault, KnownLeg, ModelReach, Side } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown } from '../numbers.ts';
import { hardware } from './boot.ts';
import * as german from './de/catalogue.ts';
import { leanText } from './drawing.ts';
import { planText } from './plan.ts';

const catalogueEn = {
  title: 'Boots of the shop',
  lead: 'Models that a description takes its numbers from. What is changed here changes no session.',
  find: 'Find a model',
  columns: { model: 'Model', hardware: 'Hardware', source: 'Where the numbers come from' },
  none: 'No model yet. Describe a boot and keep it, or import a table.',
  nothingFound: 'No model of that name.',
  importTable: 'Import a table',
  exportTable: 'Export as a table',
  importHint: 'CSV; all of it or nothing',
  imported: (taken: number, replaced: number): string =>
    `${taken} ${taken === 1 ? 'model' : 'models'} taken, ${replaced} of them in the place of one of the same name.`,
  faults: (count: number): string =>
    `Nothing was taken: ${count} ${count === 1 ? 'cell does' : 'cells do'} not fit.`,
  fault: { row: 'Row', column: 'Column', wants: 'What is wrong' },
  remove: (model: string): string => `Remove ${model}`,
  removeShort: 'Remove',
  removed: (model: string): string => `${model} was removed.`,
  unreachable: 'The shop’s server does not answer.',
  keep: 'Keep it in the catalogue',
  keepTitle: (model: string): string => `Keep ${model || 'it'} for the next pair of this model`,
  source: 'Where the numbers come from',
  sourceHint: 'The maker’s sheet, or who measured it and when.',
  kept: (model: string): string => `${model} stands in the catalogue.`,
  spacing: (mm: number): string => `${shown(mm)} mm between the pivots`,
  height: (mm: number): string => `read ${shown(mm)} mm up`,
  leans: (lean: string): string => `factory ${lean}`,
};
export const catalogueWords: Words<typeof catalogueEn> = inLanguage(catalogueEn, german.catalogueWords);

const reachEn = {
  title: (side: Side): string => `Boots that would reach the ${side} leg`,
  open: 'Which boots would reach?',
  asks: (lean: string, sd: string): string => `The leg’s line leans ${lean}${sd}.`,
  bound: {
    exact: '',
    'at-least': 'It presses laterally: at least that.',
    'at-most': 'It presses medially: at most that.',
  } as Readonly<Record<KnownLeg['bound'], string>>,
  centre: 'Its line is taken through the middle of the pivots: a reading at two heights says better.',
  spare: (deg: number): string => `reaches, ${shown(deg)}° to spare`,
  short: (deg: number, mm: number): string => `${shown(deg)}° short, a bias of ${shown(mm)} mm is left`,
  none: 'No model of the catalogue has a factory lean: none can be compared.',
  left: (count: number): string =>
    `${count} ${count === 1 ? 'model has' : 'models have'} no factory lean and cannot be compared.`,
  only: 'This is said of the cuff alone. Length, width, instep and flex are tried on at the foot.',
  sd: (deg: number): string => ` (± ${shown(deg)}°)`,
};
export const reachWords: Words<typeof reachEn> = inLanguage(reachEn, german.reachWords);

/** `Two adjusters, 84 mm between the pivots, read 160 mm up, factory 1.5° outward`. */
export function hardwareText({ hardware: of }: CatalogueBoot): string {
  return [
    hardware.pivots[of.pivots],
    catalogueWords.spacing(of.pivotSpacingMm),
    catalogueWords.height(of.readingHeightMm),
    ...(of.factoryLeanDeg === undefined ? [] : [catalogueWords.leans(leanText(of.factoryLeanDeg))]),
  ].join(', ');
}

export const faultText = ({ wants }: CellFault): string => planText(wants);

/** What a model could do for the leg. */
export const reachText = ({ reachable, spareDeg, residualMm }: ModelReach): string =>
  reachable ? reachWords.spare(spareDeg) : reachWords.short(Math.abs(spareDeg), Math.abs(residualMm ?? 0));
