/** What to do next, in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const NEXT: Sentences = [
  ['{Side} boot: leave the pivots as they are.', '{Side:er} Schuh: Drehpunkte lassen, wie sie sind.'],
  [
    '{Side} boot: even as it is; nothing has to move.',
    '{Side:er} Schuh: gleich, wie er ist; nichts verstellen.',
  ],
  ['The cuff tips {n}° outward.', 'Der Schaft kippt {n}° nach außen.'],
  ['The cuff tips {n}° inward.', 'Der Schaft kippt {n}° nach innen.'],
  [
    'Expect {n} mm medial and {n2} mm lateral, then read again.',
    'Erwartet: innen {n} mm, außen {n2} mm; danach noch einmal messen.',
  ],
  ['Expect {n} mm medial and {n2} mm lateral.', 'Erwartet: innen {n} mm, außen {n2} mm.'],
  [
    'A press only says at least: read again after the move.',
    'Druck sagt nur „mindestens“: nach dem Verstellen noch einmal messen.',
  ],
  ['{Side} boot: read both gaps again.', '{Side:er} Schuh: beide Spalte noch einmal messen.'],
  ['{Side} boot: read both gaps.', '{Side:er} Schuh: beide Spalte messen.'],
  [
    '{Side} boot: read the gaps again, since {list}.',
    '{Side:er} Schuh: Spalte noch einmal messen, denn {list}.',
  ],
  ['{Side} boot: even.', '{Side:er} Schuh: gleich.'],
  ['{Side} boot: even ({n} % sure).', '{Side:er} Schuh: gleich (zu {n} % sicher).'],
  ['Close the cuff.', 'Schaft abschließen.'],
  [
    'The repeats differ by {n} mm: let the skier settle and read once more.',
    'Die Wiederholungen liegen {n} mm auseinander: den Skifahrer neu stehen lassen und noch einmal messen.',
  ],
  [
    'Even by {n} % only: one more reading before closing is worth it.',
    'Nur zu {n} % gleich: vor dem Abschließen lohnt eine weitere Messung.',
  ],
  [
    'Even by {n} % only, though read again: this move is expected to make it {n2} %.',
    'Nur zu {n} % gleich, obwohl noch einmal gemessen: Dieses Verstellen macht es voraussichtlich zu {n2} %.',
  ],
  [
    'Perhaps even already ({n} %): read once more before moving.',
    'Vielleicht schon gleich ({n} %): vor dem Verstellen noch einmal messen.',
  ],
  ['{Side} boot: the cuff presses on both sides.', '{Side:er} Schuh: Der Schaft drückt auf beiden Seiten.'],
  [
    'It is too narrow for this leg: work the cuff, or choose another boot.',
    'Er ist zu eng für dieses Bein: Schaft bearbeiten oder anderen Schuh wählen.',
  ],
  [
    '{Side} boot: the leg presses on one side and touches the other.',
    '{Side:er} Schuh: Das Bein drückt auf einer Seite und berührt die andere.',
  ],
  [
    'Loosen the buckles, seat the heel and read again; else the cuff is too narrow.',
    'Schnallen lösen, Ferse setzen, noch einmal messen; sonst ist der Schaft zu eng.',
  ],
  [
    '{Side} boot: this is the end of the travel, with a bias of {n} mm; {x}.',
    '{Side:er} Schuh: Der Verstellweg ist zu Ende, Versatz {n} mm; {x}.',
  ],
  [
    'Accept it on record, extend the travel, or choose another boot.',
    'Im Protokoll annehmen, den Weg verlängern oder anderen Schuh wählen.',
  ],
  [
    '{Side} boot: no mark brings the cuff nearer to even than a bias of {n} mm.',
    '{Side:er} Schuh: Kein Strich bringt den Schaft näher an gleich als ein Versatz von {n} mm.',
  ],
  ['Accept it on record, or choose another boot.', 'Im Protokoll annehmen oder anderen Schuh wählen.'],
  // Whole, and before its first half: a place may hold anything, the second sentence too.
  [
    '{Side} boot: clear the hot spot at: {spot}. Stretch it, or punch or grind once the owner has agreed.',
    '{Side:er} Schuh: Druckstelle frei machen: {spot}. Weiten; drücken oder schleifen erst mit Einverständnis des Besitzers.',
  ],
  ['{Side} boot: clear the hot spot at: {spot}.', '{Side:er} Schuh: Druckstelle frei machen: {spot}.'],
  [
    'Stretch it, or punch or grind once the owner has agreed.',
    'Weiten; drücken oder schleifen erst mit Einverständnis des Besitzers.',
  ],
  ['{Side} boot: footbed in, or none needed.', '{Side:er} Schuh: Fußbett drin, oder keines nötig.'],
  ['{Side} boot: shell clearance settled.', '{Side:er} Schuh: Platz in der Schale geklärt.'],
  [
    '{Side} boot: cuff at its factory neutral, or kept as found.',
    '{Side:er} Schuh: Schaft auf Werksneutral, oder wie vorgefunden belassen.',
  ],
  [
    '{Side} boot: bring the sole back to zero before the cuff is read (plates off, or a counter-wedge under the boot).',
    '{Side:er} Schuh: Sohle auf null bringen, bevor der Schaft gemessen wird (Platten ab, oder Gegenkeil unter den Schuh).',
  ],
  [
    '{Side} boot: read the knee flat again, since {list}.',
    '{Side:er} Schuh: Knie noch einmal messen, flach, denn {list}.',
  ],
  [
    '{Side} boot: read the knee on a test wedge of {n}°, thick edge {adj} again, since {list}.',
    '{Side:er} Schuh: Knie noch einmal messen auf Testkeil {n}°, dicke Seite {adj}, denn {list}.',
  ],
  [
    '{Side} boot: choose the cant again, since {list}.',
    '{Side:er} Schuh: Canting noch einmal wählen, denn {list}.',
  ],
  [
    '{Side} boot: measure the finished sole again, since {list}.',
    '{Side:er} Schuh: fertige Sohle noch einmal messen, denn {list}.',
  ],
  ['{Side} boot: read the knee flat.', '{Side:er} Schuh: Knie messen, flach.'],
  [
    '{Side} boot: read the knee on a test wedge of {n}°, thick edge {adj}.',
    '{Side:er} Schuh: Knie messen auf Testkeil {n}°, dicke Seite {adj}.',
  ],
  ['{Side} boot: measure the sole before any work.', '{Side:er} Schuh: Sohle vor jeder Arbeit messen.'],
  ['{Side} boot: plates of {n}°, thick edge {adj}.', '{Side:er} Schuh: Platten {n}°, dicke Seite {adj}.'],
  ['{Side} boot: planing of {n}°, thick edge {adj}.', '{Side:er} Schuh: planfräsen {n}°, dicke Seite {adj}.'],
  ['{Side} boot: take the test wedge off.', '{Side:er} Schuh: Testkeil abnehmen.'],
  [
    'The owner agrees to the work on the soles first: it cannot be undone.',
    'Zuerst das Einverständnis des Besitzers mit der Arbeit an den Sohlen: Sie ist endgültig.',
  ],
  ['Open the session.', 'Sitzung eröffnen.'],
  [
    'The health answers say stop: give the boots back, and send the skier to a clinician.',
    'Die Antworten zur Gesundheit sagen Halt: Schuhe zurückgeben und ärztlich abklären lassen.',
  ],
  [
    'Ask about pain, numbness, recent surgery or fracture, and keep the outcome.',
    'Nach Schmerz, Taubheit, frischer Operation oder Bruch fragen und das Ergebnis eintragen.',
  ],
  ['Hand the boots over, with the cautions read.', 'Schuhe übergeben, Warnhinweise vorlesen.'],
  [
    '{Side} boot: lengthen at least {list} (at least {n} mm must stay).',
    '{Side:er} Schuh: mindestens {list} verlängern (mindestens {n} mm müssen bleiben).',
  ],
  [
    '{Side} boot: lengthen {list} (at least {n} mm must stay).',
    '{Side:er} Schuh: {list} verlängern (mindestens {n} mm müssen bleiben).',
  ],
  [
    '{Side} boot: no slot can be lengthened, since at least {n} mm must stay.',
    '{Side:er} Schuh: Kein Langloch lässt sich verlängern, denn mindestens {n} mm müssen bleiben.',
  ],
  ['{n} mm of travel are missing even so.', 'Auch dann fehlen {n} mm Weg.'],
  ['Before any cut: {list}, on record.', 'Vor jedem Schnitt: {list}, im Protokoll.'],
];
