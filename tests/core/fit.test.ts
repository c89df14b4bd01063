/** Sizes, shell gaps and hot spots. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import { DUAL, Story } from '../helpers/facts.ts';

const fit = (s: Story) => plan(s.facts).sides.left.fit;
const codes = (s: Story) => plan(s.facts).problems.map(({ code }) => code);
const why = (s: Story, field: string) => plan(s.facts).reasons[`sides.left.fit.${field}`];

describe('fit', () => {
  it('[FIT-1] the size goes by the longer foot, and is null until both are measured', () => {
    const s = new Story().open().boot('left', DUAL);
    s.add('assessed', { side: 'left', footLengthMm: 262 });
    expect(fit(s)).toMatchObject({ mondoMm: 265, footMm: 262, pairMm: null, wantedMm: null, overMm: 3 });
    expect(why(s, 'wantedMm')).toEqual({ code: 'missing', text: 'Measure the length of the right foot.' });
    s.add('assessed', { side: 'right', footLengthMm: 268 });
    expect(fit(s)).toMatchObject({ pairMm: 268, wantedMm: 270 });
    expect(plan(s.facts).sides.right.fit).toMatchObject({ mondoMm: null, pairMm: 268 });
  });

  it('[FIT-2] the room in the bare shell has the shop’s word for it; past either end it is a problem', () => {
    const s = new Story().open().boot('left', DUAL);
    expect(why(s, 'band')?.text).toContain('bare left shell');
    for (const [gap, band, code] of [
      [4, 'too short', 'shell-short'],
      [12, 'performance', null],
      [22, 'too long', 'shell-long'],
    ] as const) {
      s.add('assessed', { side: 'left', shellGapMm: gap });
      expect(fit(s)).toMatchObject({ shellGapMm: gap, band });
      expect(codes(s).filter((one) => one.startsWith('shell'))).toEqual(code ? [code] : []);
    }
    s.add('settings.used', { shellComfortMm: 25 } as never);
    expect(fit(s).band).toBe('comfort');
  });

  it('[FIT-3] the bench is told of each hot spot until it was worked there', () => {
    const s = new Story().open().boot('left', DUAL);
    s.add('assessed', { side: 'left', hotSpots: ['navicular', 'sixth toe'] });
    const told = () => plan(s.facts).next.filter((one) => one.do === 'shell.worked' && one.side === 'left');
    expect(told().map(({ role }) => role)).toEqual(['bench', 'bench']);
    s.add('shell.worked', { side: 'left', spot: 'Navicular', method: 'stretch' });
    expect(told()).toMatchObject([{ text: expect.stringContaining('sixth toe') as string }]);
    expect(fit(s).hotSpots).toEqual([
      { spot: 'navicular', worked: true },
      { spot: 'sixth toe', worked: false },
    ]);
    expect(codes(s)).not.toContain('hot-spot-open');
    s.add('ready.checked', { side: 'left', item: 'shell', outcome: 'done' });
    expect(told()).toEqual([]);
    expect(codes(s)).toContain('hot-spot-open');
  });

  it('[FIT-3] work from before a hot spot was noted does not clear it', () => {
    const s = new Story().open().boot('left', DUAL);
    s.add('shell.worked', { side: 'left', spot: 'navicular', method: 'stretch' });
    s.add('assessed', { side: 'left', hotSpots: ['navicular'] });
    expect(fit(s).hotSpots).toEqual([{ spot: 'navicular', worked: false }]);
  });
});
