/**
 * From what a camera gives to a photo as it is kept: upright, no larger than is of use, drawn anew so that nothing of
 * place and device is in it, and named by the SHA-256 of its bytes.
 */
import { digest } from 'lib0/hash/sha256';
import { bare } from '../../../core/index.ts';

export interface TakenPhoto {
  readonly sha256: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Pixels of the longer side: a card held at arm's length is then some 400 wide. */
const SIDE_PX = 2_048;
const QUALITY = 0.9;

/** Null when the browser cannot read the file as a picture. */
export async function takePhoto(file: Blob): Promise<TakenPhoto | null> {
  // The browser turns the picture as its file says; afterwards there is nothing that says so.
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => null);
  if (!picture) return null;
  const scale = Math.min(1, SIDE_PX / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const pen = canvas.getContext('2d')!;
  pen.imageSmoothingQuality = 'high';
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const drawn = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
  const read = drawn && bare(new Uint8Array(await drawn.arrayBuffer()));
  if (!read?.ok) return null;
  const { widthPx, heightPx } = read.photo;
  const bytes = Uint8Array.from(read.photo.bytes);
  // Over plain http there is no crypto.subtle.
  const sha256 = [...digest(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return { sha256, bytes, widthPx, heightPx };
}
