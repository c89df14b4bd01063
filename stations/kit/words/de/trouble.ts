/** What a station says when something is in its way, in German. */
import type * as english from '../trouble.ts';

export const connection: typeof english.connection = {
  offline: 'Keine Verbindung. Weiterarbeiten: Einträge bleiben hier aufgehoben.',
  offlineUnkept: 'Keine Verbindung, und dieses Gerät hebt nichts auf.',
  notHere:
    'Keine Verbindung, und dieses Gerät hatte diese Sitzung noch nicht offen. Sie kommt mit der Verbindung.',
  outdated: 'Der Server läuft mit einer anderen Version.',
  unreachable: 'Der Server der Werkstatt antwortet nicht. Es wird weiter versucht.',
  awaiting:
    'Der Server wurde wiederhergestellt und hat diese Sitzung noch nicht. Die Station an der Theke anlassen: Sie bringt die Sitzung zurück, und die Einträge von hier folgen.',
  goneSession: 'Der Server kennt diese Sitzung nicht.',
  damaged:
    'Diese Sitzung ist auf dem Rechner der Werkstatt beschädigt. Weiterarbeiten: Einträge warten auf diesem Gerät. Wer den Server betreut, findet an seiner Konsole, was zu tun ist.',
  forbidden: 'Diese Station darf nicht in diese Sitzung.',
};

export const storage: typeof english.storage = {
  full: 'Dieses Gerät ist voll und kann keine Einträge aufheben. Platz schaffen; diese Seite nicht schließen, bevor alles gespeichert ist.',
  failed:
    'Dieser Browser kann auf diesem Gerät keine Einträge aufheben. Diese Seite nicht schließen, bevor alles gespeichert ist. Andere Fibula-Seiten schließen und den privaten Modus verlassen.',
};

export const tab: typeof english.tab = {
  showsOnly: 'diese Seite zeigt nur an: im anderen Fibula-Tab eintragen oder jenen schließen',
  second:
    'Fibula ist in einem anderen Tab dieses Browsers offen. Dieser Tab zeigt nur an. Dort eintragen oder jenen schließen: Dann übernimmt dieser.',
};

export const version: typeof english.version = {
  ready: 'Eine neue Version ist da. Sie gilt, sobald diese Seite neu geladen wird.',
  reload: 'Jetzt laden',
  renewing: 'Der Server läuft mit einer anderen Version. Ihre Seiten werden geholt.',
  pageOld:
    'Der Server ist neuer als seine Seiten. Wer den Server betreut, führt dort `npm start` aus; danach diese Seite neu laden. Einträge warten hier.',
  serverOld:
    'Diese Seite ist neuer als der Server. Wer den Server betreut, bringt ihn auf den neuen Stand; danach diese Seite neu laden. Einträge warten hier.',
  unsaved:
    'Der Server läuft mit einer anderen Version, und dieses Gerät kann nicht aufheben, was wartet. Aufschreiben, dann diese Seite neu laden.',
};

export const part: typeof english.part = {
  failed: 'Ein Teil dieser Seite ist nicht angekommen. Was Sie eingetragen haben, bleibt aufgehoben.',
  again: 'Seite neu laden',
};

export const refused: typeof english.refused = {
  title: 'Vom Server nicht angenommen',
  hint: 'Bleibt auf diesem Gerät, bis Sie entscheiden. „Noch einmal versuchen“ bietet den Eintrag wieder an; oder neu eintragen und diesen aufgeben.',
  tryAgain: 'Noch einmal versuchen',
  letGo: 'Aufgeben',
  copy: 'Als Text kopieren',
  copied: 'Kopiert',
  asText: 'Markieren und kopieren',
  still: 'Immer noch nicht angenommen',
  elsewhere: (count) =>
    count === 1
      ? 'Der Server hat einen Eintrag eines anderen Auftrags nicht angenommen.'
      : `Der Server hat ${count} Einträge anderer Aufträge nicht angenommen.`,
  show: (ticket) => (ticket ? `${ticket} zeigen` : 'Zeigen'),
};
