/** Photos on the floor: taken, waiting, stored, measured in, and taken over into a reading by a person. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Fact, FactOf } from '../../core/index.ts';
import { axeViolations } from '../helpers/axe.ts';
import * as floor from '../helpers/floor.ts';
import { button, gapField } from '../helpers/floor.ts';
import { wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import { SECRET } from '../helpers/picture-files.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';
import { until } from '../helpers/until.ts';
import { seen } from '../outside/camera.ts';
import type { Camera } from '../outside/camera.ts';
import { camera, PLANE, SIZE, takePicture, TRUE } from './helpers/scene.ts';

const TOUCH_PX = 56;
const CAMERAS: readonly Camera[] = [
  camera({ yaw: 0, pitch: 0, roll: 0.02 }),
  camera({ yaw: 0.35, pitch: -0.2, roll: -0.06 }),
  camera({ yaw: -0.3, pitch: 0.3, roll: 0.1 }),
];
const GROUPS = { scale: 'Scale', legAxis: 'Leg axis', cuffAxis: 'Cuff axis', gap: 'Gap' } as const;

let at: StationShop;
let shop: TestServer;
let job: OpenJob;
let page: Page;
beforeAll(async () => {
  at = await stationShop('measuring');
  ({ shop, page } = at);
  job = await at.opener.open('Leopoldine Aschaber', wasRead());
  await page.goto(`${shop.url}/measuring#${job.session}`);
});
afterAll(() => at?.close());

const sheet = () => page.getByRole('dialog');
const of = <K extends Fact['kind']>(kind: K) =>
  job.room.facts.filter((fact): fact is FactOf<K> & Fact => fact.kind === kind);

async function upload(from: Camera, seed: number): Promise<void> {
  await sheet()
    .getByLabel(/^Take a photo/)
    .setInputFiles({ name: 'x.jpg', mimeType: 'image/jpeg', buffer: await takePicture(page, from, seed) });
}

/** Each point on its place in the picture, as a careful person would: to a whole pixel. */
async function mark(from: Camera): Promise<void> {
  const photo = of('photo.taken').at(-1)!;
  const scale = photo.widthPx / SIZE.width;
  for (const group of ['scale', 'legAxis', 'cuffAxis', 'gap'] as const) {
    await floor.choose(sheet(), 'Points of', GROUPS[group]);
    for (const [i, place] of PLANE[group].entries()) {
      const { x, y } = seen(from, place);
      await sheet()
        .getByRole('button', { name: new RegExp(`^${GROUPS[group]}, point ${i + 1}:`) })
        .focus();
      for (const [label, value] of [
        ['Across', x],
        ['Down', y],
      ] as const) {
        const input = sheet().getByLabel(label);
        await input.fill(String(Math.round(value * scale)));
        await input.blur();
      }
    }
  }
}

const read = async (what: 'angle' | 'gap') => {
  const text = await sheet().locator(`[data-read="${what}"]`).innerText();
  const [, value, plus] = /^(−?[\d.]+)\s?(?:mm|°) ± ([\d.]+)/.exec(text) ?? [];
  return { value: Number(value!.replace('−', '-')), plus: Number(plus) };
};

describe('[PHO-8] photos', () => {
  it('wait on the device while the server is away, and go up by themselves, without place and device', async () => {
    await button(page, 'Photos').click();
    await page.context().setOffline(true);
    await upload(CAMERAS[0]!, 1);
    await sheet().getByText('waiting: on this device alone').waitFor();
    await page.context().setOffline(false);
    await sheet().getByText('stored', { exact: true }).waitFor();
    await until(() => of('photo.taken').length === 1);
    const { sha256 } = of('photo.taken')[0]!;
    const there = await page.evaluate(async (path) => {
      const answer = await fetch(path);
      return { status: answer.status, text: new TextDecoder('latin1').decode(await answer.arrayBuffer()) };
    }, `/api/sessions/${job.session}/photos/${sha256}`);
    expect(there.status).toBe(200);
    expect(there.text).not.toContain(SECRET);
    await shot(page, 'photos');
    expect(await axeViolations(page)).toEqual([]);
    expect(await sidewaysScrolls(page)).toEqual([]);
    expect((await smallTargets(page, TOUCH_PX)).small).toEqual([]);
  });

  it.each(CAMERAS.map((from, i) => [i, from] as const))(
    'camera %i gives the angle within 0.3° and the gap within 0.5 mm',
    async (i, from) => {
      if (i > 0) await upload(from, i + 1);
      await until(() => of('photo.taken').length === i + 1);
      await button(sheet(), 'Measure').nth(i).click();
      await mark(from);
      const [angle, gap] = [await read('angle'), await read('gap')];
      expect(Math.abs(angle.value - TRUE.angleDeg)).toBeLessThan(0.3);
      expect(Math.abs(gap.value - TRUE.gapMm)).toBeLessThan(0.5);
      expect(angle.plus).toBeGreaterThan(0);
      expect(gap.plus).toBeGreaterThan(0);
      await shot(page, `photo-marks-${i}`);
      if (i === 1) {
        for (const size of [
          { width: 1024, height: 768 },
          { width: 390, height: 844 },
          { width: 1280, height: 800 },
        ]) {
          await page.setViewportSize(size);
          // The page behind is made for tablets; what lies over it fits a phone as well.
          const all = await sidewaysScrolls(page);
          expect(all.filter((one) => size.width > 1000 || one.startsWith('DIALOG'))).toEqual([]);
          expect((await smallTargets(page, TOUCH_PX)).small).toEqual([]);
          await shot(page, `photo-marks-${size.width}`);
        }
        expect(await axeViolations(page)).toEqual([]);
      }
      await button(sheet(), 'All photos').click();
    },
  );

  it('move a point by the arrow keys and by a finger', async () => {
    await button(sheet(), 'Measure').first().click();
    const point = sheet().getByRole('button', { name: /^Scale, point 1:/ });
    const at = async () =>
      /: ([\d.]+), ([\d.]+)$/
        .exec((await point.getAttribute('aria-label'))!)!
        .slice(1)
        .map(Number);
    const [x, y] = await at();
    await point.focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowDown');
    expect(await at()).toEqual([x! + 1, y! + 10]);
    const box = (await point.boundingBox())!;
    await page.mouse.move(box.x + 10, box.y + 10);
    await page.mouse.down();
    await page.mouse.move(box.x + 40, box.y + 10);
    await page.mouse.up();
    expect((await at())[0]).toBeGreaterThan(x! + 30);
  });

  it('become a reading only by a person, who records it with its source and its uncertainty', async () => {
    await mark(CAMERAS[0]!);
    await button(sheet(), /^Use as medial gap/).click();
    await sheet().waitFor({ state: 'detached' });
    expect(await gapField(page, 'left', 'medial').inputValue()).toMatch(/^13(\.\d)?$/);
    const before = of('cuff.read').length;
    await gapField(page, 'left', 'lateral').fill('9');
    await floor.record(page);
    await until(() => of('cuff.read').length === before + 1);
    const marked = of('photo.marked').at(-1)!;
    expect(of('cuff.read').at(-1)).toMatchObject({
      side: 'left',
      lateralMm: 9,
      fromPhoto: { marks: [marked.id], medialSdMm: expect.any(Number) as number },
    });
    expect(of('cuff.read').at(-1)!.fromPhoto).not.toHaveProperty('lateralSdMm');
  });

  it('take any rectangle for a scale, and a gap from a point to a line', async () => {
    await button(page, 'Photos').click();
    await button(sheet(), 'Measure').first().click();
    // The marks that were kept stand there again: the card, by hand.
    await floor.choose(sheet(), 'Scale by', 'Other rectangle');
    const [longer, shorter] = [sheet().getByLabel('Longer side'), sheet().getByLabel('Shorter side')];
    await longer.fill('4');
    await sheet().getByText('Place both axes.').waitFor();
    await longer.fill('85,6');
    await shorter.fill('53.98');
    const across = await read('gap');
    expect(Math.abs(across.value - TRUE.gapMm)).toBeLessThan(0.5);
    await floor.choose(sheet(), 'Points of', 'Gap');
    await floor.choose(sheet(), 'Gap', 'Point to a line');
    const [from, to] = PLANE.gap;
    const places = [from, { x: to.x, y: to.y - 9 }, { x: to.x, y: to.y + 9 }];
    for (const [i, name] of ['point', 'line, end 1', 'line, end 2'].entries()) {
      const { x, y } = seen(CAMERAS[0]!, places[i]!);
      const scale = of('photo.taken')[0]!.widthPx / SIZE.width;
      await sheet()
        .getByRole('button', { name: new RegExp(`^Gap, ${name}:`) })
        .focus();
      for (const [label, value] of [
        ['Across', x],
        ['Down', y],
      ] as const) {
        await sheet()
          .getByLabel(label)
          .fill(String(Math.round(value * scale)));
        await sheet().getByLabel(label).blur();
      }
    }
    expect(Math.abs((await read('gap')).value - TRUE.gapMm)).toBeLessThan(0.6);
    await shot(page, 'photo-to-line');
    const before = of('photo.marked').length;
    await button(sheet(), 'Keep these marks').click();
    await until(() => of('photo.marked').length === before + 1);
    const kept = of('photo.marked').at(-1)!;
    expect(kept.gap).toHaveLength(2);
    expect(kept.rectangle).toMatchObject({ widthMm: 85.6, heightMm: 53.98 });
    await button(sheet(), 'All photos').click();
    await button(sheet(), 'Close').click();
  });

  it('say which way the cuff leans, by from where the picture was taken', async () => {
    await button(page, 'Photos').click();
    await button(sheet(), 'Measure').first().click();
    await floor.choose(sheet(), 'Points of', 'Leg axis');
    // The cuff's top lies to the right of the leg's: outward on the skier's left leg, from in front.
    await sheet().getByText('cuff leans outward of the leg (clockwise as seen)').waitFor();
    await floor.choose(sheet(), 'Photographed from', 'behind');
    await sheet().getByText('cuff leans inward of the leg (clockwise as seen)').waitFor();
    await button(sheet(), 'All photos').click();
    await button(sheet(), 'Close').click();
  });

  it('[PHO-6] are taken at the bench as well, and looked at from the desk', async () => {
    const bench = await floor.pair(at.browser, shop.url, 'bench', shop.shownCode('bench'));
    await bench.goto(`${shop.url}/bench#${job.session}`);
    await button(bench, 'Photos').click();
    const there = bench.getByRole('dialog');
    await floor.choose(there, 'Whose leg', 'Right');
    await there.getByLabel(/^Take a photo of the right leg/).setInputFiles({
      name: 'x.jpg',
      mimeType: 'image/jpeg',
      buffer: await takePicture(bench, CAMERAS[1]!, 9),
    });
    await until(() => of('photo.taken').length === CAMERAS.length + 1);
    expect(of('photo.taken').at(-1)).toMatchObject({ side: 'right', shows: 'boot', by: { role: 'bench' } });
    await there.getByText('stored', { exact: true }).last().waitFor();
    expect(await axeViolations(bench)).toEqual([]);
    await button(there, 'Measure').last().click();
    await there.getByText('A photo is an aid.').waitFor();
    // A reading is taken on the floor.
    expect(await there.getByRole('button', { name: /^Use as/ }).count()).toBe(0);
    await shot(bench, 'photos-bench');
    await bench.close();

    const desk = await floor.pair(at.browser, shop.url, 'desk', shop.shownCode('desk'));
    await desk.goto(`${shop.url}/desk#${job.session}`);
    await button(desk, 'Photos').click();
    const seenThere = desk.getByRole('dialog');
    await shot(desk, 'photos-desk');
    expect(await seenThere.getByLabel(/^Take a photo/).count()).toBe(0);
    await button(seenThere, 'Look').first().click();
    await seenThere.getByRole('img', { name: 'Photo 1: Left, gap' }).waitFor();
    const text = await seenThere.locator('[data-read="angle"]').innerText();
    expect(text).toContain('outward');
    expect(await sidewaysScrolls(desk)).toEqual([]);
    expect(await axeViolations(desk)).toEqual([]);
    expect((await smallTargets(desk, TOUCH_PX)).small).toEqual([]);
    await shot(desk, 'photo-desk');
    await desk.close();
  });

  it('[PHO-7] go from the server when they are taken back, while it is away as soon as it is back', async () => {
    const { id, sha256 } = of('photo.taken')[0]!;
    const path = `/api/sessions/${job.session}/photos/${sha256}`;
    const there = () => page.evaluate(async (url) => (await fetch(url)).status, path);
    await button(page, 'Photos').click();
    await button(sheet(), 'Measure').first().click();
    expect(await there()).toBe(200);
    await page.context().setOffline(true);
    await button(sheet(), 'Take this photo back').click();
    // Gone from the list at once, like any entry that is undone.
    await until(async () => (await button(sheet(), 'Measure').count()) === CAMERAS.length);
    await page.context().setOffline(false);
    await until(() => of('struck').some(({ fact }) => fact === id));
    await until(async () => (await there()) === 404);
    await button(sheet(), 'Measure').first().click();
    const next = of('photo.taken')[1]!;
    await button(sheet(), 'Take this photo back').click();
    await until(() => of('struck').some(({ fact }) => fact === next.id));
    await until(async () => {
      const url = `/api/sessions/${job.session}/photos/${next.sha256}`;
      return (await page.evaluate(async (to) => (await fetch(to)).status, url)) === 404;
    });
  });
});
