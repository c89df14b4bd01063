/** A picture of known geometry as a camera would take it: in perspective, with noise, as a JPEG with notes in it. */
import type { Page } from 'playwright';
import type { Point } from '../../../core/index.ts';
import { JPEG_NOTES } from '../../helpers/picture-files.ts';
import { seen } from '../../outside/camera.ts';
import type { Camera } from '../../outside/camera.ts';

const p = (x: number, y: number): Point => ({ x, y });
export const SIZE = { width: 2400, height: 1800 };

/** On the plane, in millimetres: a card, the ends of both axes, and the two edges between which the gap is. */
export const PLANE = {
  scale: [p(-42.8, -26.99), p(42.8, -26.99), p(42.8, 26.99), p(-42.8, 26.99)],
  legAxis: [p(-72, 70), p(-64, -75)],
  cuffAxis: [p(72, 70), p(87, -75)],
  gap: [p(-20, 52), p(-6.6, 52)],
} as const;
/** What a protractor and a calliper would say there. */
export const TRUE = {
  angleDeg: ((Math.atan2(15, 145) - Math.atan2(8, 145)) * 180) / Math.PI,
  gapMm: 13.4,
};

export const camera = (turns: Pick<Camera, 'yaw' | 'pitch' | 'roll'>): Camera => ({
  ...turns,
  ...{ distanceMm: 420, at: p(2, 0), focalPx: 3600, middle: p(SIZE.width / 2, SIZE.height / 2) },
});

/** A strip along a line, and both walls of the gap, as polygons of the plane. */
function shapes(): { readonly fill: string; readonly corners: readonly Point[] }[] {
  const strip = ([a, b]: readonly Point[], half: number) => {
    const length = Math.hypot(b!.x - a!.x, b!.y - a!.y);
    const [nx, ny] = [(half * (a!.y - b!.y)) / length, (half * (b!.x - a!.x)) / length];
    return [
      p(a!.x + nx, a!.y + ny),
      p(b!.x + nx, b!.y + ny),
      p(b!.x - nx, b!.y - ny),
      p(a!.x - nx, a!.y - ny),
    ];
  };
  const [from, to] = PLANE.gap;
  return [
    { fill: '#f4f0e6', corners: PLANE.scale },
    { fill: '#d9a066', corners: strip(PLANE.legAxis, 1) },
    { fill: '#3a5f8a', corners: strip(PLANE.cuffAxis, 1) },
    { fill: '#c98f5a', corners: [p(-40, 40), p(from.x, 40), p(from.x, 64), p(-40, 64)] },
    { fill: '#27496d', corners: [p(to.x, 40), p(20, 40), p(20, 64), p(to.x, 64)] },
  ];
}

/** The JPEG's bytes, drawn by the browser of `page`. */
export async function takePicture(page: Page, from: Camera, seed: number): Promise<Buffer> {
  const drawn = shapes().map(({ fill, corners }) => ({ fill, corners: corners.map((at) => seen(from, at)) }));
  const base64 = await page.evaluate(
    ({ polygons, width, height, start }) => {
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [width, height];
      const pen = canvas.getContext('2d')!;
      pen.fillStyle = '#6b7280';
      pen.fillRect(0, 0, width, height);
      for (const { fill, corners } of polygons) {
        pen.fillStyle = fill;
        pen.beginPath();
        for (const { x, y } of corners) pen.lineTo(x, y);
        pen.fill();
      }
      const pixels = pen.getImageData(0, 0, width, height);
      let state = start;
      for (let i = 0; i < pixels.data.length; i++) {
        if (i % 4 === 3) continue;
        state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
        pixels.data[i]! += (state / 2 ** 32 - 0.5) * 36;
      }
      pen.putImageData(pixels, 0, 0);
      return canvas.toDataURL('image/jpeg', 0.85).split(',')[1]!;
    },
    { polygons: drawn, ...SIZE, start: seed },
  );
  const bytes = Buffer.from(base64, 'base64');
  return Buffer.concat([bytes.subarray(0, 2), Buffer.from(JPEG_NOTES.flat()), bytes.subarray(2)]);
}
