/** Words of the desk's locked corner, in German. */
import type * as english from '../corner.ts';
import { ago } from './common.ts';

const entries = (n: number): string => `${n} ${n === 1 ? 'Eintrag' : 'Einträge'}`;

export const corner: typeof english.corner = {
  title: 'Gesperrte Ecke',
  lock: 'Jetzt sperren',
  openUntil: (time) => `Offen bis ${time}, oder bis Sie sperren`,
  lockedAgain: 'Die Ecke hat sich selbst gesperrt, weil nichts darin getan wurde.',
  loading: 'Der Server wird gefragt',
  unreachable: 'Der Server der Werkstatt antwortet nicht. Noch einmal versuchen.',

  pinTitle: 'PIN der Werkstatt eingeben',
  pinLead:
    'Dahinter: die Stationen der Werkstatt, ihre Einstellungen, Kundendaten, Sicherungen, und was eine gesperrte Station zurückgelassen hat.',
  pin: 'PIN',
  pinForgotten:
    'Vergessen? Wer den Server betreut, tippt dort: npm run -s pin. Danach kann hier eine neue gewählt werden.',
  unlock: 'Ecke öffnen',
  waitFor: (seconds) => (seconds <= 60 ? `${seconds} s warten` : `${Math.ceil(seconds / 60)} min warten`),
  firstTitle: 'Eine PIN für diese Werkstatt wählen',
  firstLead:
    'Die Ecke hat noch keine. Sechs bis zwölf Ziffern, die an der Theke niemand errät; dort aufschreiben, wo die Unterlagen des Betriebs liegen.',
  newPin: 'Neue PIN',
  again: 'Noch einmal dieselbe',
  digits: '6 bis 12 Ziffern',
  differs: 'Die beiden sind verschieden. Zweimal dieselbe PIN eingeben.',
  short: 'Eine PIN hat 6 bis 12 Ziffern.',
  setPin: 'Diese PIN setzen',
  changePin: 'PIN ändern',
  oldPin: 'Bisherige PIN',
  pinChanged: 'Die PIN ist geändert. Andere Theken sind gesperrt.',

  parts: {
    stations: 'Stationen',
    requests: 'Wieder hereinlassen',
    quarantine: 'Zurückgelassen',
    codes: 'Neue Station',
    settings: 'Einstellungen',
    opening: 'Zeiten',
    studies: 'Studien',
    clients: 'Kunden',
    server: 'Server',
    pin: 'PIN',
  },

  stations: 'Die Stationen dieser Werkstatt',
  columns: { name: 'Name', work: 'Arbeit', seen: 'Zuletzt da', paired: 'Angemeldet' },
  thisDesk: 'diese Theke',
  connected: 'jetzt verbunden',
  never: 'nie',
  revokedOn: (when) => `gesperrt ${when}`,
  number: (n, device) => `Nr. ${n}, ${device}`,
  change: 'Ändern',
  changeTitle: (name) => `„${name}“ ändern`,
  changeHint:
    'Die Station kommt von selbst wieder, als das, was sie dann ist. Eine offene Seite muss vielleicht neu geladen werden.',
  name: 'Name dieser Station',
  roles: 'Was diese Station darf',
  roleMissing: 'Mindestens eines wählen.',
  nameMissing: 'Ein Name fehlt.',
  ownDesk:
    'Das ist die Theke, an der Sie stehen: Sie bleibt eine Theke und wird von einer anderen aus gesperrt.',
  keep: 'So behalten',
  revoke: 'Sperren',
  revokeTitle: (name) => `„${name}“ sperren?`,
  revokeWhat:
    'Für ein Gerät, das verloren, gestohlen oder weggegeben wurde. Es ist sofort draußen. Was dort eingetragen wurde und nicht angekommen ist, kann noch abgegeben werden; es wartet unter „Zurückgelassen“, bis Sie entscheiden.',
  revokeDo: 'Diese Station sperren',
  revoked: (name) => `„${name}“ ist gesperrt.`,
  changed: (name) => `„${name}“ ist geändert.`,

  requests: 'Stationen, die wieder hereinwollen',
  noRequests: 'Keine Station bittet.',
  requestsHint:
    'Eine Station, die ihre Anmeldung verloren hat, bittet auf ihrem eigenen Bildschirm. Hier zeigt sie sich von selbst.',
  compare: 'Ihr Bildschirm muss zeigen',
  asksAs: {
    known: (name, device) => `„${name}“ (${device})`,
    revoked: (name, device) => `„${name}“ (${device})`,
    unknown: (device) => `sagt, sie sei ${device}`,
  },
  standing: {
    known: 'Diese Werkstatt kennt sie. Sie kommt mit derselben Nummer und derselben Arbeit wieder.',
    revoked: (when) =>
      `Sie wurde am ${when} gesperrt. Nur hereinlassen, wenn Sie das Gerät in der Hand haben und wissen, warum es gesperrt wurde.`,
    unknown:
      'Diese Werkstatt kennt sie nicht: Sie ist vielleicht von vor einer Wiederherstellung oder von woanders. Sagen, was sie darf.',
  },
  from: (address, ago) => `von ${address}, gebeten ${ago}`,
  ago: (since) => (since === ago.now ? since : `vor ${since.replace(/Tage$/, 'Tagen')}`),
  letIn: 'Die Zahlen sind gleich: hereinlassen',
  letInRevoked: 'Die Zahlen sind gleich: die gesperrte Station hereinlassen',
  sayNo: 'Nein sagen',
  lettingIn: 'Sie kommt in wenigen Sekunden herein.',

  quarantine: 'Einträge, die eine gesperrte Station noch hatte',
  noBacklogs: 'Nichts wurde zurückgelassen.',
  backlogOf: (name, ticket) =>
    ticket === null ? `${name}, eine Sitzung, die der Server nicht hat` : `${name}, Ticket ${ticket}`,
  handedIn: (when) => `abgegeben ${when}`,
  waitingEntries: (n) => `über ${entries(n)} zu entscheiden`,
  takenEntries: (n) => `${entries(n)} angenommen`,
  thrownEntries: (n) => `${entries(n)} verworfen`,
  look: 'Ansehen',
  backToList: 'Alle',
  state: { waiting: 'zu entscheiden', refused: 'nicht angenommen', taken: 'angenommen', thrown: 'verworfen' },
  inSession: 'steht in seiner Sitzung',
  takeIn: (n) => `${entries(n)} annehmen`,
  takeInHint: 'als Einträge jener Station',
  export: 'Als Datei sichern',
  throwAway: 'Verwerfen',
  throwTitle: (n) => `${entries(n)} verwerfen?`,
  throwWhat:
    'Sie kommen nicht in die Sitzung. Erst als Datei sichern, wenn jemand danach fragen könnte; einen Monat lang geht das noch hier.',
  throwDo: (n) => `${entries(n)} verwerfen`,

  code: 'Einen Browser zu einer Station der Werkstatt machen',
};
