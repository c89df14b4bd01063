/** Words that all stations share, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../common.ts';
import { place, Sided, sideWord } from './sides.ts';

export const sides: typeof english.sides = { word: sideWord, Word: Sided, adjuster: place };

export const roleWord: typeof english.roleWord = {
  measuring: 'Messplatz',
  bench: 'Werkbank',
  desk: 'Theke',
  wall: 'Anzeige',
};

export const stepWord: typeof english.stepWord = {
  intake: 'Annahme',
  ready: 'Schuh bereit',
  cuff: 'Schaftstellung',
  stance: 'Knie',
  cant: 'Canting',
  sole: 'Sohle',
  binding: 'Bindungsprüfung',
  handover: 'Übergabe',
};

export const statusWord: typeof english.statusWord = {
  blocked: 'gesperrt',
  ready: 'zu tun',
  waiting: 'wartet',
  done: 'erledigt',
  stale: 'überholt',
  waived: 'verzichtet',
};

export const refusalWord: typeof english.refusalWord = {
  shape: 'Ein Feld fehlt oder liegt außerhalb der Grenzen',
  identity: 'Der Eintrag trägt den Namen einer anderen Station',
  permission: 'Diese Station darf das nicht eintragen',
  'id-taken': 'Ein anderer Eintrag hat dieselbe Kennung',
  opening: 'Eine Sitzung wird einmal eröffnet, und zuerst',
  'unknown-target': 'Was gestrichen werden soll, steht nicht in dieser Sitzung',
  full: 'Die Sitzung ist voll',
  erased: 'Die Notizen dieser Sitzung wurden gelöscht, sie nimmt keine neuen an',
};

export const common: typeof english.common = {
  product: 'Fibula',
  language: 'Sprache',
  languageHeld:
    'Jetzt nicht: Ein Eintrag wartet, der verloren ginge. Noch einmal wählen, wenn alles gespeichert ist.',
  close: 'Schließen',
  back: 'Zurück',
  cancel: 'Abbrechen',
  cautions: 'Warnhinweise',
  signalWord: { warning: 'WARNUNG', caution: 'VORSICHT', notice: 'HINWEIS' },
  notANumber: 'Keine Zahl. Ziffern tippen, mit Komma oder Punkt.',
  outside: (min, max, unit) => `Muss ${shown(min)} bis ${shown(max)}${unit ? ` ${unit}` : ''} sein.`,
  saved: 'gespeichert',
  waiting: 'noch nicht gespeichert',
  allSaved: 'Alles gespeichert',
  waitingCount: (n) => `${n} noch nicht gespeichert`,
  connecting: 'Verbindet',
  connected: 'Verbunden',
  alsoHere: 'Auch hier',
  switchStation: 'Station wechseln',
  station: 'Station',
  initials: 'Ihr Kürzel',
  initialsHint: 'Steht an jedem Eintrag, den Sie an dieser Station machen.',
  wipe: 'Glas abwischen',
  wipeHint: 'der Bildschirm reagiert 20 Sekunden lang nicht',
  wiping: (seconds) =>
    `Jetzt wischen. Der Bildschirm reagiert wieder in ${seconds} ${seconds === 1 ? 'Sekunde' : 'Sekunden'}.`,
  loading: 'Daten kommen vom Server',
  noRole: (role) => `Diese Station ist für „${role}“ nicht freigegeben.`,
  noRoleHint: 'Einen Code eingeben, der das freigibt, oder an einer anderen Station weitermachen.',
  nobody: 'Name hier nicht bekannt',
  mm: 'mm',
  edit: 'Ändern',
  undo: 'Zurücknehmen',
  undone: 'Zurückgenommen',
  strike: 'Streichen',
  reinstate: 'Wieder gelten lassen',
  strikeTitle: 'Einen Eintrag streichen',
  strikeWhy: 'Was ist daran falsch?',
  strikeHint: 'Nichts wird gelöscht: Der Eintrag bleibt lesbar, mit diesem Grund.',
  struck: (reason) => `gestrichen: ${reason}`,
  reasons: ['falsche Seite', 'Tippfehler', 'doppelt eingetragen', 'Schuh war nicht bereit'],
  photos: 'Fotos',
  record: 'Einträge',
  recordTitle: 'Alle Einträge dieser Sitzung',
  problems: 'Bitte ansehen',
  stale: 'überholt',
};

export const home: typeof english.home = {
  title: 'Welche Station ist das?',
  lead: 'Einmal tippen. Wechseln geht jederzeit, wenn diese Station mehrere Arbeiten hat.',
  about: {
    measuring: 'Am Boden, neben dem stehenden Skifahrer',
    bench: 'An der Presse: was jetzt zu tun ist, Schuh für Schuh',
    desk: 'Annahme, Übersicht der offenen Aufträge, Übergabe',
    wall: 'Ticketnummern für den Warteraum, ohne Namen',
  },
  thisStation: (name) => `Dieser Browser ist „${name}“.`,
  pageTitle: (what) => `${what} · Fibula`,
  notYet: 'Dieser Browser ist noch keine Station der Werkstatt.',
};

export const pairing: typeof english.pairing = {
  title: 'Diesen Browser zur Station machen',
  lead: 'Die sechs Ziffern von der Theke oder von der Konsole des Servers tippen. Sie gelten zehn Minuten, einmal.',
  code: 'Code',
  name: 'Name dieser Station',
  nameHint: 'So, wie man sie nennt: „Tablet am Boden“, „Presse“.',
  go: 'Als Station anmelden',
  wrong: 'Dieser Code ist unbekannt, verbraucht oder älter als zehn Minuten. Einen neuen holen.',
  unreachable: 'Der Server der Werkstatt antwortet nicht.',
  digits: 'Ziffern',
  erase: 'Löschen',
};

const stage: Record<keyof typeof stepWord, string> = {
  intake: 'angenommen',
  ready: 'wird vorbereitet',
  cuff: 'Schäfte',
  stance: 'Knie',
  cant: 'Knie',
  sole: 'Sohlen',
  binding: 'Bindungsprüfung',
  handover: 'Übergabe',
};

export const wall: typeof english.wall = {
  title: 'Tickets',
  nothing: 'Zurzeit keine Schuhe in der Werkstatt.',
  pickup: 'abholbereit',
  stage: (at) => (at === null ? 'fertig' : stage[at]),
};

export const ago: typeof english.ago = {
  now: 'gerade eben',
  minutes: (n) => `${n} min`,
  hours: (n) => `${n} h`,
  days: (n) => `${n} Tage`,
};
