/** Words of what comes after, in German. */
import { signed } from '../../numbers.ts';
import type * as english from '../again.ts';
import { Of } from './sides.ts';

export const again: typeof english.again = {
  open: 'Zweites Paar oder Nachkontrolle',
  title: 'Noch eine Sitzung für diesen Skifahrer',
  which: 'Welche Schuhe',
  recheck: 'Diese Schuhe noch einmal',
  recheckHint: 'ihre Beschreibung kommt mit; zuerst wird nachgesehen, wie sie stehen',
  recheckBare: 'beschrieben hat sie noch niemand',
  pair: 'Ein zweites Paar',
  pairHint: 'die Schuhe sind noch zu beschreiben',
  linked: (ticket) => `Schließt an ${ticket} an`,
  linkedUnknown: 'Schließt an eine frühere Sitzung an',

  snow: 'Nachher berichtet',
  snowTitle: 'Was nachher berichtet wird',
  from: 'Woher',
  fromSnow: 'vom Schnee',
  fromHome: 'Blick in den Spiegel daheim',
  side: 'Welcher Schuh',
  both: 'Beide',
  said: 'Was berichtet wurde',
  saidHint: 'Wie die Schuhe fahren; keine Namen, nichts zur Gesundheit.',
  wants: 'Kommt noch einmal?',
  fine: 'Alles gut',
  wanted: 'Nachkontrolle gewünscht',
  enter: 'Eintragen, was berichtet wurde',
  enterAndOpen: 'Eintragen und die Nachkontrolle eröffnen',

  referenceMissing: 'Eine bestandene Prüfung hat ein Zeichen: es eintippen.',
  declineDo: 'Die Warnung ist vorgelesen: abgelehnt, im Protokoll',
  bindingAsks: 'Abgelehnt: dem Besitzer die Warnung oben vorlesen, bevor es ins Protokoll kommt.',
};

export const asLeft: typeof english.asLeft = {
  title: 'So gingen diese Schuhe hinaus',
  cuff: (side, lateralMm, medialMm) =>
    `${Of(side, 'er')} Schuh: Drehpunkt außen ${signed(lateralMm)} mm${medialMm === undefined ? '' : `, innen ${signed(medialMm)} mm`}`,
  cuffUnknown: (side) => `${Of(side, 'er')} Schuh: wo die Drehpunkte blieben, steht nicht im Protokoll`,
  sole: (deg) => (deg === 0 ? 'Sohle flach' : `Canting von ${signed(deg)}° an der Sohle`),
  soleUnknown: 'Canting nicht im Protokoll',
  look: 'Die Striche und unter die Sohle ansehen, bevor es bestätigt wird.',
  still: (side) => `${Of(side, 'er')} Schuh: angesehen, noch so`,
  stillHint: 'trägt es als vorgefunden ein',
  other: 'Sonst beim Punkt selbst eintragen, was vorgefunden wird.',
  expectedHint: 'Fußbett drin, Schale unberührt, nichts locker; Schaft und Sohle wie vorgefunden',
  coming: 'Es wird nachgesehen, wie die Schuhe hinausgingen.',
};
