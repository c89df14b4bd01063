/** What a station says of the server's own state, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../server.ts';

export const serverWords: typeof english.serverWords = {
  readOnly: {
    full: {
      title: 'Die Platte des Servers ist voll.',
      todo: 'Am Rechner der Werkstatt Platz schaffen.',
    },
    forbidden: {
      title: 'Der Server darf seine Daten nicht schreiben.',
      todo: 'Am Rechner der Werkstatt das Schreiben in sein Datenverzeichnis erlauben.',
    },
    failing: {
      title: 'Die Platte des Servers nimmt keine Einträge an.',
      todo: 'Nach der Platte im Rechner der Werkstatt sehen; mehr steht im Protokoll des Servers.',
    },
    locked: {
      title: 'Ein anderes Programm hält die Datenbank des Servers fest.',
      todo: 'Dieses Programm am Rechner der Werkstatt schließen.',
    },
    damaged: {
      title: 'Die Datenbank des Servers ist beschädigt.',
      todo: 'Den Server am Rechner der Werkstatt neu starten: Er sagt, was zu tun ist. Die Daten dieses Browsers nicht löschen.',
    },
  },
  waits: 'Weiterarbeiten: Einträge warten auf diesem Gerät und werden später von selbst gespeichert.',
  waitsLong: 'Weiterarbeiten: Einträge warten auf diesem Gerät.',
  lowSpace: (freeMb) =>
    `Auf der Platte im Rechner der Werkstatt sind nur noch ${shown(freeMb)} MB frei. Platz schaffen, bevor sie voll ist.`,
  backup: (lastGood) =>
    `Sicherungen misslingen oder sind überfällig: ${lastGood === null ? 'es gibt noch keine gute' : `die letzte gute ist von ${lastGood}`}. Was zu tun ist, steht in der gesperrten Ecke unter „Server“.`,
  mark: 'Nach dem Server sehen',
};
