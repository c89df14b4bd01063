/** What was measured, as a table: a line for each figure, a column for each server, and how it stands to ours. */

/** Server → figure → value. */
export type Medians = Readonly<Record<string, Readonly<Record<string, number>>>>;

const shown = (value: number): string => (value >= 100 ? value.toFixed(0) : value.toPrecision(3));

/** Figure → server → value, and the ratio to ours in brackets. */
export function tableOf(medians: Medians): Record<string, Record<string, string>> {
  const figures = Object.keys(Object.values(medians)[0]!);
  const cell = (what: string, name: string): string => {
    const value = medians[name]![what];
    if (value === undefined) return '–';
    const own = medians['ours']?.[what];
    return name === 'ours' || own === undefined
      ? shown(value)
      : `${shown(value)} (${(value / own).toFixed(2)})`;
  };
  return Object.fromEntries(
    figures.map((what) => [
      what,
      Object.fromEntries(Object.keys(medians).map((name) => [name, cell(what, name)])),
    ]),
  );
}

export function asMarkdown(medians: Medians): string {
  const names = Object.keys(medians);
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |\n`;
  return (
    line(['figure', ...names]) +
    line(['figure', ...names].map(() => '---')) +
    Object.entries(tableOf(medians))
      .map(([what, row]) => line([what, ...names.map((name) => row[name]!)]))
      .join('')
  );
}
