/** Contrast of two colours on a screen. */

/** Relative luminance of a colour like `#12202b`, 0 to 1. Source: WCAG 2.2, "relative luminance". */
export function luminance(hex: string): number {
  const [, digits] = /^#([0-9a-f]{6})$/i.exec(hex) ?? [];
  if (!digits) throw new Error(`${hex} is no colour like #12202b`);
  const [red, green, blue] = [0, 2, 4].map((at) => {
    const share = parseInt(digits.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Contrast ratio, 1 to 21, whichever is the text. Source: WCAG 2.2, "contrast ratio". */
export function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].toSorted((x, y) => x - y) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}
