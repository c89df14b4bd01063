/** What the steps of a job say, in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const STEPS: Sentences = [
  [
    'The health answers say stop: nothing is done to these boots.',
    'Die Antworten zur Gesundheit sagen Halt: An diesen Schuhen wird nichts gemacht.',
  ],
  ['{Side} boot is not ready: {list}.', '{Side:er} Schuh ist nicht bereit: {list}.'],
  ['The session is not opened.', 'Die Sitzung ist nicht eröffnet.'],
  ['Ask about health, and keep the outcome.', 'Nach der Gesundheit fragen und das Ergebnis eintragen.'],
  ['The health answers say stop.', 'Die Antworten zur Gesundheit sagen Halt.'],
  [
    'The health answers say refer: a clinician sees this skier before the work goes on.',
    'Die Antworten zur Gesundheit sagen abklären: zuerst zum Arzt, dann geht die Arbeit weiter.',
  ],
  [
    'A recheck starts as found: ask what changed since (pivots, screws, plates, sole wear, liner, footbed, injury, weight).',
    'Eine Nachkontrolle beginnt wie vorgefunden: fragen, was sich geändert hat (Drehpunkte, Schrauben, Platten, Abnutzung der Sohle, Innenschuh, Fußbett, Verletzung, Gewicht).',
  ],
  ['To settle: {list}.', 'Zu klären: {list}.'],
  [
    'The {side} cuff is given up for another boot.',
    'Der {side:e} Schaft ist für einen anderen Schuh aufgegeben.',
  ],
  ['{Side} cuff even.', '{Side:er} Schaft gleich.'],
  ['{Side} cuff accepted with what is left over.', '{Side:er} Schaft angenommen mit dem, was übrig bleibt.'],
  [
    'The {side} sole has a cant of {n}°: bring it to zero before the cuff is read.',
    'Die {side:e} Sohle hat ein Canting von {n}°: auf null bringen, bevor der Schaft gemessen wird.',
  ],
  ['Read the {side} gaps.', 'Spalte {side} messen.'],
  ['The {side} gaps are even: close the cuff.', 'Die Spalte {side} sind gleich: Schaft abschließen.'],
  [
    'The {side} cuff presses on both sides: it is too narrow for the leg.',
    'Der {side:e} Schaft drückt auf beiden Seiten: zu eng für das Bein.',
  ],
  [
    'The {side} cuff is at the end of its travel with a bias of {n} mm.',
    'Beim {side:en} Schaft ist der Weg zu Ende, Versatz {n} mm.',
  ],
  [
    'The bench moves the pivots of the {side} cuff.',
    'Die Werkbank stellt die Drehpunkte des {side:en} Schafts.',
  ],
  [
    'No mark brings the {side} cuff nearer to even.',
    'Kein Strich bringt den {side:en} Schaft näher an gleich.',
  ],
  [
    'Both cuffs are closed first: a cant over open cuffs only hides the fault.',
    'Zuerst beide Schäfte abschließen: Canting über offenen Schäften verdeckt nur den Fehler.',
  ],
  ['Read where the {side} knee stands, flat.', 'Messen, wo das {side:e} Knie steht, flach.'],
  [
    "The {side} knee's readings contradict each other.",
    'Die Messungen am {side:en} Knie widersprechen sich.',
  ],
  ['Still to do: {list}.', 'Noch zu tun: {list}.'],
  ['{Side} cant chosen: flat.', 'Canting {side} gewählt: flach.'],
  ['{Side} cant chosen: {n}°, thick edge {adj}.', 'Canting {Side:s} gewählt: {n}°, dicke Seite {adj}.'],
  ['The {side} stance comes first.', 'Zuerst das {side:e} Knie.'],
  [
    'The {side} knee asks for more than a plate may give: refer on (cuff again, footbed, clinician), or choose none, on record.',
    'Das {side:e} Knie braucht mehr, als eine Platte geben darf: weiterleiten (Schaft noch einmal, Fußbett, Arzt) oder keines wählen, im Protokoll.',
  ],
  [
    'The {side} knee stands well on a flat sole: choose none.',
    'Das {side:e} Knie steht gut auf flacher Sohle: keines wählen.',
  ],
  ['Choose {n}°, thick edge {adj}.', '{n}°, dicke Seite {adj}, wählen.'],
  ['A second technician looks first.', 'Zuerst schaut eine zweite Fachkraft.'],
  ['The {side} cant comes first.', 'Zuerst das Canting {side}.'],
  ['Nothing was done under the {side} boot.', 'Unter dem {side:en} Schuh wurde nichts gemacht.'],
  ['The test wedge is still under the {side} boot.', 'Der Testkeil ist noch unter dem {side:en} Schuh.'],
  ["Make the {side} sole's cant.", 'Canting der {side:en} Sohle machen.'],
  [
    'Measure the finished {side} sole against its standard.',
    'Fertige {side:e} Sohle gegen ihre Norm messen.',
  ],
  [
    'The finished {side} sole is out of its limits: no pickup.',
    'Die fertige {side:e} Sohle liegt außerhalb der Grenzen: keine Abholung.',
  ],
  [
    'Not checked, since nobody entered a limit: {list}.',
    'Nicht geprüft, weil niemand eine Grenze eingetragen hat: {list}.',
  ],
  [
    'The binding check was declined, on record.',
    'Die Bindungsprüfung wurde abgelehnt, im Protokoll vermerkt.',
  ],
  ['The skis are out for inspection.', 'Die Ski sind zur Prüfung unterwegs.'],
  ['The sole comes first.', 'Zuerst die Sohle.'],
  [
    'A changed sole goes to a certified binding technician before use.',
    'Eine veränderte Sohle geht vor dem Gebrauch zu einer zertifizierten Bindungsfachkraft.',
  ],
  [
    'The boots went out unfit, on record.',
    'Die Schuhe gingen nicht in Ordnung hinaus, im Protokoll vermerkt.',
  ],
  ['Ready to be handed over.', 'Bereit zur Übergabe.'],
  ['{x} left is not finished.', '{x} links ist nicht fertig.'],
  ['{x} right is not finished.', '{x} rechts ist nicht fertig.'],
  ['{x} is not finished.', '{x} ist nicht fertig.'],
];
