/** Deutsch für ../shop-numbers.ts. */
import type { Share } from '../../../../core/index.ts';
import { shown } from '../../numbers.ts';
import { FEW, percentTogether as percent } from '../../shop-numbers.ts';

const schaefte = (n: number): string => (n === 1 ? 'Schaft' : 'Schäfte');

export const numbersWords = {
  title: 'Zahlen der Werkstatt',
  which: 'Welche Zeit',
  periods: { day: 'Tag', week: 'Woche', month: 'Monat', season: 'Saison', days: 'Von – bis' },
  before: 'Die Zeit davor',
  after: 'Die Zeit danach',
  now: 'Heute',
  from: 'Erster Tag',
  to: 'Letzter Tag',
  wrongDays: 'Der letzte Tag liegt vor dem ersten.',
  noDay: 'Beide Tage sind nötig.',
  tooLong: 'Höchstens hundert Jahre auf einmal.',
  season: (years: string): string => `Saison ${years}`,
  seasonHint: '1. September bis 31. August',
  csv: 'Als Tabelle für andere Programme (CSV)',
  untilNow: 'Läuft noch: gezählt bis jetzt.',
  future: 'Diese Zeit hat noch nicht begonnen.',
  nothing: 'In dieser Zeit wurde nichts angenommen, abgeschlossen oder übergeben.',
  never: 'Noch nichts: Es wurde kein Auftrag angenommen.',
  firstWas: (day: string): string => `Der erste Auftrag wurde am ${day} angenommen.`,
  toFirst: 'Zum ersten Auftrag',
  uncounted: (n: number): string =>
    `${n} ${n === 1 ? 'Sitzung wird' : 'Sitzungen werden'} noch gezählt: Bis dahin wachsen die Zahlen hier.`,
  unreachable: 'Der Server der Werkstatt antwortet nicht, und er allein hat die Zahlen.',
  sum: (opened: number, handed: number, unfit: number): string =>
    `${opened} angenommen, ${handed} übergeben${unfit ? `, ${unfit} nicht in Ordnung abgegeben` : ''}`,
  here: (n: number, paused: number): string =>
    `Von den angenommenen ${n === 0 ? 'ist keiner mehr' : n === 1 ? 'ist 1 noch' : `sind ${n} noch`} hier${paused ? `, davon ${paused} unterbrochen` : ''}.`,
  jobs: {
    heading: 'Aufträge',
    opened: 'Angenommen',
    handed: 'Übergeben',
    unfit: 'Nicht in Ordnung abgegeben',
    service: 'Leistung',
    all: 'Alle',
    toCome: 'kommt noch',
    says: (bucket: string, opened: number, handed: number, unfit: number): string =>
      `${bucket}: ${opened} angenommen, ${handed} übergeben${unfit ? `, ${unfit} nicht in Ordnung abgegeben` : ''}`,
    none: 'Kein Auftrag kam oder ging.',
  },
  even: {
    heading: 'Schritte bis gleich',
    title: 'Als gleich abgeschlossene Schäfte, nach den Schritten dahin',
    moves: (n: number, more: boolean): string =>
      `${n}${more ? ' oder mehr' : ''} ${n === 1 ? 'Schritt' : 'Schritte'}`,
    count: (n: number, all: number): string => `${n} von ${all}`,
    mean: (mean: number, cuffs: number): string =>
      `${cuffs} ${schaefte(cuffs)} als gleich abgeschlossen, im Mittel mit ${shown(mean)} Schritten.`,
    otherwise: (n: number): string =>
      n === 1
        ? '1 weiterer wurde so belassen, oder für einen anderen Schuh abgeschlossen.'
        : `${n} weitere wurden so belassen, oder für einen anderen Schuh abgeschlossen.`,
    inOne: 'Gleich mit höchstens einem Schritt',
    none: 'In dieser Zeit wurde kein Schaft als gleich abgeschlossen.',
  },
  first: {
    heading: 'Erster Schritt genug',
    title: 'Erster Schritt genug, in Prozent der verstellten Schäfte',
    none: 'In dieser Zeit wurde kein verstellter Schaft abgeschlossen.',
    says: (bucket: string, text: string): string => `${bucket}: ${text}`,
    within: 'wahrer Anteil, 9 von 10',
    share: 'gesehener Anteil',
  },
  share: (count: number, all: number, { share, low, high }: Share): string =>
    all < FEW
      ? `${count} von ${all}: zu wenige, der wahre Anteil kann ${percent(low)} bis ${percent(high)} sein`
      : `${percent(share)} (${count} von ${all}); in 9 von 10 Fällen liegt der wahre Anteil zwischen ${percent(low)} und ${percent(high)}`,
  shareShort: (count: number, all: number): string =>
    all === 0
      ? '–'
      : all < FEW
        ? `${count} von ${all}`
        : `${percent(count / all)} (${count}\u00a0von\u00a0${all})`,
  waits: {
    heading: 'Warten nach Arbeit',
    lead: 'Gewartet und in der Hand: bei offener Tür, nach den heutigen Öffnungszeiten und Händen. Nach der Uhr: mit Nächten und geschlossenen Tagen.',
    none: 'In dieser Zeit kam keine Arbeit zu ihrem Ende.',
    stage: 'Arbeit',
    times: (n: number): string => `${n}-mal`,
    waited: 'Gewartet',
    worked: 'In der Hand',
    whole: 'Nach der Uhr',
    both: 'Hälfte · 80 %',
    half: 'die Hälfte bis hier',
    most: '80 % bis hier',
    stages: {
      first: 'Erste Messungen',
      pivots: 'Drehpunkte',
      again: 'Messungen nach einem Schritt',
      stance: 'Knie',
      sole: 'Sohlen',
      check: 'Bindungsprüfung',
      pickup: 'Fertig, nicht abgeholt',
    },
    tooFew: 'zu\u00a0wenige',
  },
  pieces: {
    heading: 'Stück für Stück',
    show: (bucket: string): string => `${bucket} zeigen`,
    piece: { hour: 'Stunde', day: 'Tag', week: 'Woche', month: 'Monat', season: 'Saison' },
    even: 'Gleich abgeschlossen',
    mean: 'Schritte, Mittel',
    first: 'Erster Schritt genug',
  },
  hour: (hour: number): string => `${hour} Uhr`,
  minutes: (n: number): string => `${n}\u00a0min`,
  hours: (h: number, min: number): string => (min === 0 ? `${h}\u00a0h` : `${h}\u00a0h\u00a0${min}\u00a0min`),
  days: (d: number, h: number): string => (h === 0 ? `${d}\u00a0T` : `${d}\u00a0T\u00a0${h}\u00a0h`),
};
