/** What stands in a PDF: pages with their sizes and words, and each as a picture, out of which codes are read. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';

const POINTS_PER_MM = 72 / 25.4;
/** Of a usual label printer: 203 dots an inch, 8 a millimetre. */
const DOTS_PER_MM = 8;

export interface PdfPage {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Its words with single blanks between them. */
  readonly text: string;
  /** As a printer of 203 dots an inch puts it on paper. */
  readonly png: Uint8Array;
}

interface Canvas {
  readonly canvas: { toBuffer(type: 'image/png'): Uint8Array };
  readonly context: CanvasRenderingContext2D;
}
interface CanvasFactory {
  create(width: number, height: number): Canvas;
}

export async function readPdf(bytes: Uint8Array): Promise<PdfPage[]> {
  const loading = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const pdf = await loading.promise;
  const pages: PdfPage[] = [];
  for (let number = 1; number <= pdf.numPages; number++) {
    const page = await pdf.getPage(number);
    const { width, height } = page.getViewport({ scale: 1 });
    const { items } = await page.getTextContent();
    const viewport = page.getViewport({ scale: DOTS_PER_MM / POINTS_PER_MM });
    const { canvas, context } = (pdf.canvasFactory as CanvasFactory).create(
      Math.round(viewport.width),
      Math.round(viewport.height),
    );
    await page.render({ canvas: null, canvasContext: context, viewport }).promise;
    pages.push({
      widthMm: width / POINTS_PER_MM,
      heightMm: height / POINTS_PER_MM,
      text: items
        .map((item) => ('str' in item ? `${item.str}${item.hasEOL ? ' ' : ''}` : ''))
        .join('')
        .replace(/\s+/g, ' '),
      png: new Uint8Array(canvas.toBuffer('image/png')),
    });
  }
  await loading.destroy();
  return pages;
}

/** How many strokes and fills a page has: what is drawn, beside what is written. */
export async function drawnOn(bytes: Uint8Array, number: number): Promise<number> {
  const loading = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const page = await (await loading.promise).getPage(number);
  const { fnArray } = await page.getOperatorList();
  await loading.destroy();
  return fnArray.filter((op) => op === OPS.constructPath).length;
}

let decoder = false;
/** The codes in a picture, as a scanner reads them: `QRCode` and `Code128`, with their texts. */
export async function codesIn(
  png: Uint8Array,
): Promise<{ readonly format: string; readonly text: string }[]> {
  if (!decoder) {
    const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
    const bytes = readFileSync(wasm);
    prepareZXingModule({
      overrides: {
        wasmBinary: bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength),
      },
    });
    decoder = true;
  }
  const found = await readBarcodes(png, { formats: ['QRCode', 'Code128'], tryHarder: true });
  return found.map(({ format, text }) => ({ format, text }));
}
