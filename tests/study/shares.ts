/** What many outcomes come to; null of none. */
export const share = (part: number, whole: number): number | null => (whole === 0 ? null : part / whole);
export const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
