/** Words of the corner's pages on the server and on clients' data, in German. */
import type * as english from '../keeping.ts';
import { size } from '../size.ts';

const sessions = (n: number): string => `${n} ${n === 1 ? 'Sitzung' : 'Sitzungen'}`;
const backups = (n: number): string => `${n} ${n === 1 ? 'tägliche Sicherung' : 'tägliche Sicherungen'}`;

export const server: typeof english.server = {
  notices: 'Zu erledigen',
  noNotices: 'Nichts zu tun.',
  notice: {
    'address-changed': 'Die Adresse des Servers hat sich geändert',
    'names-uncovered': 'Eine Adresse steht nicht im Zertifikat',
    'authority-replaced': 'Die Stationen müssen diesem Server neu vertrauen',
    'authority-next': 'Die nächste Zertifizierungsstelle ist bereit',
    'authority-ends': 'Die Zertifizierungsstelle der Werkstatt läuft bald ab',
    'authority-ended': 'Die Zertifizierungsstelle der Werkstatt ist abgelaufen',
    'clock-behind': 'Die Uhr des Servers geht falsch',
  },
  otherNotice: 'Der Server braucht Aufmerksamkeit',
  backupNotice: 'Die Sicherungen brauchen jemanden',
  backupTodo: (directory) =>
    `Am Rechner der Werkstatt: Gibt es ${directory}, darf dorthin geschrieben werden, ist Platz? Alle 15 Minuten wird es wieder versucht. Bis dahin von Hand sichern, dort:`,
  backupCommand: 'npm run backup -- FILE',

  address: 'Adresse',
  addressTodo: 'Was die Stationen öffnen. Eine feste Adresse für diesen Rechner im Router hält sie so.',
  byName: (name) => `auch ${name}`,
  certificate: 'Zertifikat',
  made: (made, ends) => `Erneuert am ${made}, läuft ab am ${ends}`,
  madeTodo: (renews) =>
    `Nichts zu tun: Ab ${renews} wird es von selbst erneuert, und keine Station merkt etwas davon.`,
  authority: 'Zertifizierungsstelle',
  authorityEnds: (ends) => `Läuft ab am ${ends}`,
  authorityTodo: 'Ihr vertrauen die Stationen. Ein Jahr vor ihrem Ende sagt diese Seite, was zu tun ist.',
  fingerprint: 'Fingerabdruck',
  fingerprintTodo: 'Vergleichen, bevor eine neue Station der Zertifizierungsstelle vertraut.',
  plain: 'Keines: Der Server läuft über einfaches http',
  plainTodo:
    'Wer im selben Netz ist, kann mitlesen, und Stationen können ohne Verbindung nicht neu laden. Den Server ohne --plain starten.',

  backups: 'Sicherungen',
  lastGood: 'Letzte gute',
  lastGoodIs: (when, bytes) => (bytes === null ? when : `${when}, ${size(bytes)}`),
  none: 'Noch keine',
  noneTodo: 'Die erste wird gemacht, sobald es einen Auftrag gibt.',
  due: (time) =>
    `Jeden Tag ab ${time} wird eine gemacht, von Anfang bis Ende wieder gelesen und dann erst benannt.`,
  neverDue:
    'Von selbst wird keine gemacht: Der Server wurde mit --backup-at never gestartet. Von Hand: npm run backup -- FILE',
  place: 'Wo',
  placeTodo:
    'Am besten auf einer anderen Platte: Eine Kopie daneben stirbt mit dem Original (--backups DIR).',
  copies: (n) => `${n} ${n === 1 ? 'Kopie' : 'Kopien'} aufgehoben`,
};

export const clients: typeof english.clients = {
  title: 'Daten eines Kunden',
  lead: 'Alles, was von einem Kunden aufgehoben ist, als Datei sichern, oder das Persönliche löschen.',
  search: 'Name oder Kontakt',
  searchHint: 'Zwei Buchstaben oder mehr.',
  nobody: 'Niemand gefunden.',
  open: 'Öffnen',
  back: 'Neu suchen',
  reference: (ref) => `Kennung ${ref}`,
  sessions: (n) => (n === 0 ? 'Keine Sitzungen.' : `${sessions(n)}:`),
  session: (ticket, opened) =>
    ticket === null ? `eröffnet ${opened}` : `Ticket ${ticket}, eröffnet ${opened}`,
  closed: 'übergeben',
  stillOpen: 'noch offen',
  sessionFile: 'Sitzung als Datei',
  file: 'Alles Aufgehobene als Datei sichern',
  erase: 'Persönliche Daten löschen',
  eraseTitle: (name) => `Die persönlichen Daten von „${name}“ löschen?`,
  goes: 'Endgültig weg',
  goesWhat: (n) =>
    `Name, Kontakt, Sprache, Fotos und jeder freie Text in ${n === 0 ? 'allen Sitzungen dieses Kunden' : sessions(n)}.`,
  stays: 'Bleibt',
  staysWhat:
    'Schuhe, Messungen, Einstellungen, Platten, Zeiten und alle Zahlen des Plans, unter einer Kennung, die niemanden nennt.',
  openStill: (n) =>
    `${sessions(n)} noch offen: Stationen, die ${n === 1 ? 'sie' : 'eine davon'} zeigen, kommen von selbst ohne die Texte wieder.`,
  typeName: 'Den Namen des Kunden eintippen',
  typeNameHint: (name) => `Wie er aufgehoben ist: ${name}`,
  backups: 'Auch die täglichen Sicherungen neu schreiben',
  backupsHint:
    'Sonst enthalten sie die Daten, bis sie alt genug sind zu gehen. Von Hand gemachte Kopien löschen Sie selbst.',
  eraseDo: 'Endgültig löschen',
  erasing: 'Wird gelöscht. Diese Seite offen lassen.',
  erased: (n, rewritten) =>
    `Gelöscht: die Person und die Texte von ${sessions(n)}.${rewritten > 0 ? ` Neu geschrieben: ${backups(rewritten)}.` : ''}`,
  notRewritten: (n) =>
    `${backups(n)} ${n === 1 ? 'ließ' : 'ließen'} sich nicht neu schreiben und ${n === 1 ? 'enthält' : 'enthalten'} die Daten noch. Warum, steht im Protokoll des Servers.`,
};
