/** The three stations of the demo's shop, each paired with a code like any other. */
import { Station } from './station.ts';

export type ShopRole = 'desk' | 'measuring' | 'bench';
export type Shop = Readonly<Record<ShopRole, Station>>;

/** `deskCode` grants the desk; the desk then asks for the codes of the two others. */
export async function openShop(url: string, deskCode: string): Promise<Shop> {
  const desk = await Station.pair(url, deskCode, 'Front desk (demo)', 'FD');
  const measuring = await Station.pair(url, await desk.code(['measuring']), 'Floor (demo)', 'MF');
  const bench = await Station.pair(url, await desk.code(['bench']), 'Press (demo)', 'BP');
  return { desk, measuring, bench };
}
