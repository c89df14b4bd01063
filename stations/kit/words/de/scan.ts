/** Words of scanning, in German. */
import type * as english from '../scan.ts';
import { of, Of } from './sides.ts';

export const scan: typeof english.scan = {
  ask: {
    tagged: (side) => `Den ${of(side, 'en')} Schuh nehmen und seinen Anhänger scannen`,
    untagged: (side) => `Den ${of(side, 'en')} Schuh nehmen und lesen, was darauf steht`,
  },
  here: (side, ticket) => `Das ist der ${of(side, 'e')} Schuh von ${ticket}`,
  hereHint: {
    tagged: 'kein Scanner: Seite und Ticket am Schuh selbst gelesen',
    untagged: 'Seite und Ticket am Schuh selbst gelesen',
  },
  putTag: 'Wird jetzt ein freier Anhänger gescannt, kann er an diesen Schuh.',
  before: 'Die Anweisung kommt, sobald sicher ist, welcher Schuh das ist.',
  waits: 'Was wartet',
  inHand: (side, ticket) =>
    `Der ${of(side, 'e')} Schuh von ${ticket} war in der Hand: An ihm ist jetzt nichts mehr zu tun.`,
  model: 'Modell',

  otherTitle: { side: 'Der andere Schuh dieses Paars', job: 'Ein Schuh eines anderen Auftrags' },
  scanned: 'Gescannt',
  wanted: 'Hier gefragt',
  boot: (side, ticket) => `${Of(side, 'er')} Schuh, ${ticket}`,
  nothing: 'Es wurde nichts eingetragen.',
  stay: (side, ticket) => `Weglegen: gefragt ist der ${of(side, 'e')} Schuh von ${ticket}`,
  stayHint: 'dann den richtigen scannen',
  change: (side, ticket) => `Zum ${of(side, 'en')} Schuh von ${ticket} wechseln`,
  changeHint: 'seine Anweisung erscheint; die andere bleibt',

  unknownTitle: 'Ein Code ohne offenen Schuh',
  unknown: (code) => `Kein Schuh im Geschäft trägt „${code}“.`,
  pickFirst: 'Um den Anhänger an einen Schuh zu geben, links den Schuh wählen und noch einmal scannen.',
  put: (side, ticket) => `Diesen Anhänger an den ${of(side, 'en')} Schuh von ${ticket} geben`,
  putHint: (code) => `trägt den Anhänger ${code} in die Beschreibung des Schuhs ein`,
  replaceHint: (was) => `statt seines Anhängers ${was}`,
  leave: 'Lassen',

  severalTitle: 'Mehr als ein Schuh trägt diesen Code',
  several: 'Welcher ist es? Seite und Ticket am Schuh lesen.',

  tags: 'Anhänger an den Schuhen',
  tag: (side) => `Anhänger ${side === 'left' ? 'links' : 'rechts'}`,
  tagHint: 'hier scannen; leer: keiner',
  sameTag: 'Beide Schuhe haben denselben Anhänger: Jeder braucht einen eigenen.',
};
