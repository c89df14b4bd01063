/** A plot of dots: one line for each case, one dot for each practice, so that a practice is followed from case to case. */

export interface DotPlot {
  readonly title: string;
  /** What stands along the axis, with its unit. */
  readonly axis: string;
  readonly max: number;
  readonly step: number;
  readonly shown: (value: number) => string;
  readonly series: readonly string[];
  readonly rows: readonly { readonly label: string; readonly values: readonly (number | null)[] }[];
  /** What was hoped for; none of the practices is worse than another for lying beyond it. */
  readonly goal?: { readonly at: number; readonly says: string };
}

const WIDE = 760;
const LEFT = 190;
const RIGHT = 24;
const TOP = 84;
const ROW = 30;

const text = (x: number, y: number, what: string, more = '') =>
  `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" ${more}>${what.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</text>`;

/** Practices are told apart by shape as well as by lightness. */
const MARKS: readonly ((x: number, y: number) => string)[] = [
  (x, y) => `<path d="M${x - 5} ${y - 5}l10 10m0 -10l-10 10" fill="none" stroke="#1a2622" stroke-width="2"/>`,
  (x, y) =>
    `<rect x="${x - 5}" y="${y - 5}" width="10" height="10" fill="#fff" stroke="#1a2622" stroke-width="2"/>`,
  (x, y) => `<circle cx="${x}" cy="${y}" r="6" fill="#134940"/>`,
  (x, y) => `<path d="M${x} ${y - 7}l7 7l-7 7l-7 -7z" fill="#7fa79e" stroke="#134940" stroke-width="1.5"/>`,
];

export function dotPlot(plot: DotPlot): string {
  const high = TOP + plot.rows.length * ROW + 46;
  const floor = TOP + plot.rows.length * ROW;
  const x = (value: number) => LEFT + (Math.min(value, plot.max) / plot.max) * (WIDE - LEFT - RIGHT);
  const ticks = Array.from({ length: Math.round(plot.max / plot.step) + 1 }, (_, i) => i * plot.step);
  const parts = [
    text(16, 26, plot.title, 'font-size="17" font-weight="600"'),
    ...plot.series.map((name, i) => {
      const at = LEFT + i * 140;
      return MARKS[i]!(at, 52) + text(at + 12, 57, name);
    }),
    ...ticks.map(
      (tick) =>
        `<path d="M${x(tick).toFixed(1)} ${TOP - 8}V${floor}" stroke="#d5dbd8"/>` +
        text(x(tick), floor + 18, plot.shown(tick), 'text-anchor="middle"'),
    ),
    text(x(plot.max / 2), floor + 38, plot.axis, 'text-anchor="middle"'),
    ...(plot.goal
      ? [
          `<path d="M${x(plot.goal.at).toFixed(1)} ${TOP - 8}V${floor}" stroke="#7a2b0c" stroke-width="2" stroke-dasharray="6 4"/>`,
          text(x(plot.goal.at) + 5, TOP + 2, plot.goal.says, 'fill="#7a2b0c"'),
        ]
      : []),
    ...plot.rows.flatMap(({ label, values }, i) => {
      const y = TOP + (i + 0.5) * ROW;
      return [
        text(16, y + 5, label),
        `<path d="M${LEFT} ${y}H${WIDE - RIGHT}" stroke="#eef1f0"/>`,
        ...values.map((value, k) => (value === null ? '' : MARKS[k]!(Math.round(x(value)), y))),
      ];
    }),
  ];
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDE} ${high}" font-family="sans-serif" font-size="14" fill="#1a2622">\n` +
    `<title>${plot.title}</title><rect width="${WIDE}" height="${high}" fill="#fff"/>\n${parts.join('\n')}\n</svg>\n`
  );
}
