/** Problems of a plan in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const PROBLEMS: Sentences = [
  [
    '{x} ({side}): {list} disagree, and neither knew of the other.',
    '{x} ({side}): {list} widersprechen sich, und keiner wusste vom anderen.',
  ],
  [
    '{x}: {list} disagree, and neither knew of the other.',
    '{x}: {list} widersprechen sich, und keiner wusste vom anderen.',
  ],
  ['One more entry settles it.', 'Ein weiterer Eintrag klärt es.'],
  [
    'Reading {raw} of the {side} cuff fits the {side2} leg far better than the {side3} one: were the sides exchanged?',
    'Messung {raw} am {side:en} Schaft passt viel besser zum {side2:en} Bein als zum {side3:en}: Seiten vertauscht?',
  ],
  [
    'The {side} cuff was read before the boot was ready: {list} not settled.',
    'Der {side:e} Schaft wurde gemessen, bevor der Schuh bereit war: {list} nicht geklärt.',
  ],
  [
    'The {side} cuff was read over a cant of {n}°: bring the sole to zero, then read again.',
    'Der {side:e} Schaft wurde über einem Canting von {n}° gemessen: Sohle auf null bringen, dann noch einmal messen.',
  ],
  [
    'The {side} cuff was read over a sole whose cant is not known: record it, then read again.',
    'Der {side:e} Schaft wurde über einer Sohle mit unbekanntem Canting gemessen: eintragen, dann noch einmal messen.',
  ],
  [
    'The {side} knee was read over a sole whose cant is not known: record it, then read again.',
    'Das {side:e} Knie wurde über einer Sohle mit unbekanntem Canting gemessen: eintragen, dann noch einmal messen.',
  ],
  [
    'The {side} cuff was read over a boot board with a cant of {n}°: an inner cant counts as cant.',
    'Der {side:e} Schaft wurde über einem Bootboard mit {n}° Canting gemessen: Canting innen zählt als Canting.',
  ],
  [
    'The {side} cuff was read without saying that {list}: read again.',
    'Der {side:e} Schaft wurde gemessen, ohne zu sagen, dass {list}: noch einmal messen.',
  ],
  [
    'The {side} knee was read without saying that {list}: read again.',
    'Das {side:e} Knie wurde gemessen, ohne zu sagen, dass {list}: noch einmal messen.',
  ],
  [
    'The {side} cuff was read without knowing where its pivots stood.',
    'Der {side:e} Schaft wurde gemessen, ohne dass die Stellung der Drehpunkte bekannt war.',
  ],
  [
    'The {side} knee was read over open cuffs ({list}): a cant would only hide the fault.',
    'Das {side:e} Knie wurde über offenen Schäften gemessen ({list}): Canting würde den Fehler nur verdecken.',
  ],
  [
    "The {side} knee moves against its wedges: are the wedges' thick edges, or medial and lateral, mixed up?",
    'Das {side:e} Knie bewegt sich gegen die Keile: dicke Seiten, oder innen und außen, vertauscht?',
  ],
  [
    "The {side} knee's readings contradict each other: stand afresh and read once more.",
    'Die Messungen am {side:en} Knie widersprechen sich: neu hinstellen und noch einmal messen.',
  ],
  [
    'The floor under the skier was not checked level today: half a degree is 4 mm at the knee.',
    'Der Boden unter dem Skifahrer wurde heute nicht geprüft: Ein halbes Grad sind 4 mm am Knie.',
  ],
  [
    'The floor slopes {n}° across: level it, or stand elsewhere.',
    'Der Boden fällt quer um {n}°: ausgleichen oder woanders hinstellen.',
  ],
  ['{Side} reading {raw} is stale: {parts}.', 'Messung {raw} ({Side:s}) ist überholt: {parts}.'],
  ['{Side} knee reading {raw} is stale: {parts}.', 'Kniemessung {raw} ({Side:s}) ist überholt: {parts}.'],
  [
    '{Side} fore-aft reading {raw} is stale: {parts}.',
    'Messung vor und zurück {raw} ({Side:s}) ist überholt: {parts}.',
  ],
  [
    'The {side} gaps hardly followed the pivots, or went the other way: are sides, signs and pivot screws right?',
    'Die Spalte {side} folgten den Drehpunkten kaum oder verkehrt herum: Stimmen Seiten, Vorzeichen und Schrauben?',
  ],
  [
    'The two heights of the {side} reading lie less than 30 mm apart: they cannot part tilt from offset.',
    'Die zwei Höhen der Messung {side} liegen unter 30 mm auseinander: Kippung und Versatz lassen sich nicht trennen.',
  ],
  [
    'An even gap and a parallel {side} cuff are two different settings here: look at seat, padding and footbed.',
    'Gleicher Spalt und paralleler {side:er} Schaft sind hier zwei Stellungen: Sitz, Polster und Fußbett ansehen.',
  ],
  [
    "The {side} boot's {adj} pivot is recorded at {x}, outside its travel.",
    'Der Drehpunkt {adj} am {side:en} Schuh ist bei {x} eingetragen, außerhalb seines Wegs.',
  ],
  [
    "The {side} boot's {adj} pivot is recorded at {x}, between two marks.",
    'Der Drehpunkt {adj} am {side:en} Schuh ist bei {x} eingetragen, zwischen zwei Strichen.',
  ],
  [
    'The {side} cuff has two adjusters; record where the medial one stands.',
    'Der {side:e} Schaft hat zwei Versteller; eintragen, wo der innere steht.',
  ],
  [
    "The travel of the {side} boot's medial pivot is not described; it is left where it is.",
    'Der Weg des Drehpunkts innen am {side:en} Schuh ist nicht beschrieben; er bleibt, wo er ist.',
  ],
  [
    "The {side} boot's {adj} pivot hole is {n} mm from the edge; at least {n2} mm must stay.",
    'Das Loch am Drehpunkt {adj} des {side:en} Schuhs ist {n} mm vom Rand; mindestens {n2} mm müssen bleiben.',
  ],
  [
    'The {side} cuff was closed without a reading that counts at the pivots as they are set.',
    'Der {side:e} Schaft wurde ohne gültige Messung in dieser Stellung abgeschlossen.',
  ],
  [
    'The {side} cuff was closed as even, but its readings say {x}, a bias of {n} mm.',
    'Der {side:e} Schaft wurde als gleich abgeschlossen, die Messungen sagen aber: {x}, Versatz {n} mm.',
  ],
  [
    'The {side} cuff was closed as even, but its readings say {x}.',
    'Der {side:e} Schaft wurde als gleich abgeschlossen, die Messungen sagen aber: {x}.',
  ],
  [
    'The {side} cant was chosen without {list}, and without saying why.',
    'Das Canting {side} wurde gewählt ohne {list}, und ohne zu sagen, warum.',
  ],
  [
    'The {side} cant chosen is {n}°; the readings say {n2}°.',
    'Das Canting {side} ist {n}°; die Messungen sagen {n2}°.',
  ],
  ['Say why.', 'Sagen, warum.'],
  [
    'The {side} readings give no plate ({raw}), and one was chosen without saying why.',
    'Die Messungen {side} geben keine Platte her, und eine wurde gewählt, ohne zu sagen, warum.',
  ],
  [
    'The {side} boot stands {n} mm higher than the other: is that wanted?',
    'Der {side:e} Schuh steht {n} mm höher als der andere: Ist das gewollt?',
  ],
  ['The {side} boot: {x} is still to do.', '{side:S}, Schuh: {x} ist noch zu tun.'],
  [
    'Left and right ask for cants {n}° apart: look at leg length, cuffs and footbeds first.',
    'Links und rechts liegen im Canting {n}° auseinander: zuerst Beinlänge, Schäfte und Fußbetten ansehen.',
  ],
  ['The session was never opened.', 'Die Sitzung wurde nie eröffnet.'],
  ['Facts stand before the opening of the session.', 'Einträge stehen vor der Eröffnung der Sitzung.'],
  ['The session is opened a second time by {raw}.', 'Die Sitzung wird durch {raw} ein zweites Mal eröffnet.'],
  [
    'The {side} sole is out of its limits, {x}: {n} mm, and must be {n2} mm to {n3} mm.',
    'Die {side:e} Sohle liegt außerhalb der Grenzen, {x}: {n} mm, muss {n2} bis {n3} mm sein.',
  ],
  [
    'The {side} shell leaves {n} mm behind the heel: too short.',
    'Die {side:e} Schale lässt {n} mm hinter der Ferse: zu kurz.',
  ],
  [
    'The {side} shell leaves {n} mm behind the heel: too long.',
    'Die {side:e} Schale lässt {n} mm hinter der Ferse: zu lang.',
  ],
  [
    'The {side} shell counts as settled, and nobody worked the hot spot noted at: {spot}.',
    'Die {side:e} Schale gilt als geklärt, aber niemand hat die Druckstelle bearbeitet: {spot}.',
  ],
  [
    'The {side} boot: {x} cannot be undone, and no agreement of the owner stood on record before it.',
    '{side:S}, Schuh: {x} ist endgültig, und vorher stand kein Einverständnis des Besitzers im Protokoll.',
  ],
  [
    'The {side} boot: {x} cannot be undone, and no approval of the maker stood on record before it.',
    '{side:S}, Schuh: {x} ist endgültig, und vorher stand keine Freigabe des Herstellers im Protokoll.',
  ],
  ['The boots were handed over too early, with {list}.', 'Die Schuhe wurden zu früh übergeben: {list}.'],
  [
    'The {side} boot, {x}: {n} mm, and {x2} allows {n2} mm ({x3}).',
    '{side:S}, Schuh, {x}: {n} mm; {x2} erlaubt {n2} mm ({x3}).',
  ],
  [
    'The {side} boot is to stand {n} mm higher than the other, on the word of the {x}; it stands {x2}.',
    'Der {side:e} Schuh soll {n} mm höher stehen als der andere, auf das Wort von {x}; er steht {x2}.',
  ],
  [
    'Reading {raw} of the {side} cuff is not taken together with {raw2}: {x}.',
    'Messung {raw} am {side:en} Schaft wird nicht mit {raw2} zusammengenommen: {x}.',
  ],
  [
    'The {side} cuff leaves {n} mm in all: is it too narrow for the leg?',
    'Der {side:e} Schaft lässt insgesamt {n} mm: Ist er zu eng für das Bein?',
  ],
  [
    'The {side} cuff leaves {n} mm in all: is it too wide, or is the liner out?',
    'Der {side:e} Schaft lässt insgesamt {n} mm: Ist er zu weit, oder fehlt der Innenschuh?',
  ],
  ['{Side} leg, {x}.', '{Side:es} Bein, {x}.'],
  [
    '{raw} was written by {x}, which may not.',
    '{raw} wurde von {x} geschrieben; diese Station darf das nicht.',
  ],
  ['Strike {raw} does nothing: {x}.', 'Streichung {raw} bewirkt nichts: {x}.'],
];
