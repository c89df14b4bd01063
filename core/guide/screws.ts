/** How long the screws of a plate may be, at both edges of toe and heel: long enough to grip, outside the boot. */
import type { Edge, Zone } from '../maths/routing.ts';
import { screwWindow } from '../maths/screw.ts';
import type { ScrewPlace } from '../maths/screw.ts';
import type { SoleWork } from '../maths/sole.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import type { EnteredName } from '../record/settings.ts';
import { slot } from '../record/slots.ts';
import type { Mm } from '../units.ts';
import type { ScrewLengths, ScrewsPlan } from './shape.ts';

/** The shop's screws, entered and never assumed: a point inside the boot hurts. */
export interface Screws {
  readonly diameterMm: Mm;
  readonly headDepthMm: Mm;
  readonly marginMm: Mm;
}

const entered = (log: Log, name: EnteredName): Mm | null => {
  const state = log.now(slot.setting(name));
  return state.is === 'one' ? (state.value as Mm) : null;
};

export const headDepthOf = (log: Log): Mm | null => entered(log, 'screwHeadDepthMm');

export function screwsIn(log: Log): Screws | null {
  const diameterMm = entered(log, 'screwDiameterMm');
  const headDepthMm = headDepthOf(log);
  const marginMm = entered(log, 'screwMarginMm');
  return diameterMm === null || headDepthMm === null || marginMm === null
    ? null
    : { diameterMm, headDepthMm, marginMm };
}

/** One screw's place; null without plates, or while the screws are not known. */
export function screwPlace(
  screws: Screws | null,
  boot: FactOf<'boot.described'>,
  work: SoleWork,
  zone: Zone,
  edge: Edge,
): ScrewPlace | null {
  if (!screws || work.method !== 'plate') return null;
  return { ...screws, plateMm: work.plates[zone][`${edge}Mm`], materialMm: boot.soleMaterialMm ?? null };
}

function lengths(place: ScrewPlace): ScrewLengths {
  const window = screwWindow(place);
  return {
    minMm: window.minMm,
    maxMm: window.fits ? window.maxMm : null,
    usefulMm: window.fits ? window.usefulMm : null,
  };
}

export function screwsOf(log: Log, boot: FactOf<'boot.described'>, work: SoleWork): ScrewsPlan | null {
  const screws = screwsIn(log);
  const at = (zone: Zone, edge: Edge) => screwPlace(screws, boot, work, zone, edge);
  const both = (zone: Zone) => {
    const [medial, lateral] = [at(zone, 'medial'), at(zone, 'lateral')];
    return medial && lateral && { medial: lengths(medial), lateral: lengths(lateral) };
  };
  const [toe, heel] = [both('toe'), both('heel')];
  return toe && heel && { toe, heel };
}
