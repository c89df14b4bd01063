/** Words of a station that is none any more, or not yet again, in German. */
import type * as english from '../revoked.ts';

const entries = (n: number): string => `${n} ${n === 1 ? 'Eintrag' : 'Einträge'}`;

export const revoked: typeof english.revoked = {
  title: 'Diese Station wurde gesperrt',
  lead: 'Die Theke hat ihren Zugang beendet. Nichts, was hier eingetragen wurde, ist verloren.',
  atDesk: (n) =>
    `${entries(n)} ${n === 1 ? 'wartet' : 'warten'} auf die Theke: Sie nimmt sie an oder verwirft sie.`,
  taken: (n) => `${entries(n)} von der Theke angenommen.`,
  thrown: (n) => `${entries(n)} von der Theke verworfen; auf diesem Gerät mit dem Grund aufgehoben.`,
  here: (n) => `${entries(n)} nur auf diesem Gerät.`,
  nothing: 'Dieses Gerät hatte keine Einträge, die der Server nicht hat.',
  looking: 'Es wird nach Einträgen gesucht, die der Server nicht hat.',
  storeFailed:
    'Der Speicher dieses Geräts ist nicht lesbar. Die Daten dieses Browsers nicht löschen; um Hilfe bitten.',
  unreachable: 'Der Server antwortet nicht. Alles bleibt hier, und es wird wieder versucht.',
  full: 'Die Theke hat erst wieder Platz, wenn sie über das Vorhandene entschieden hat. Alles bleibt hier.',
  notKept: (reason) => `Der Server nimmt manches nicht an: ${reason}. Es bleibt hier.`,
  thrownWhy: 'die Theke hat es verworfen, nachdem diese Station gesperrt war',
};

export const letIn: typeof english.letIn = {
  title: 'War diese Station schon angemeldet?',
  lead: (device) =>
    `Dieser Browser weiß noch, dass er „${device}“ war. Die Theke kann ihn ohne Code wieder hereinlassen.`,
  ask: 'Die Theke bitten, diese Station wieder hereinzulassen',
  number: 'Diese Zahl mit der an der Theke vergleichen',
  waiting: 'Warten auf die Theke: „Gesperrte Ecke“, dann „Wieder hereinlassen“.',
  until: 'Gilt zehn Minuten. Diese Seite offen lassen.',
  stop: 'Nicht mehr bitten',
  refused: 'Die Theke hat Nein gesagt. Dort fragen, warum, oder einen Code eingeben.',
  gone: 'Die Bitte ist abgelaufen. Noch einmal bitten.',
  unreachable: 'Der Server der Werkstatt antwortet nicht. Noch einmal versuchen.',
};
