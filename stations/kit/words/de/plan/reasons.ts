/** Why a number of the plan is not known, in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const REASONS: Sentences = [
  // The cuff.
  ['Read the {side} gaps again, since {list}.', 'Spalte {side} noch einmal messen, denn {list}.'],
  [
    'The {side} cuff presses on both sides: that says nothing of its lean.',
    'Der {side:e} Schaft drückt auf beiden Seiten: Das sagt nichts über seine Neigung.',
  ],
  [
    'Nobody has read the {side} gaps at these pivots.',
    'Die Spalte {side} hat bei dieser Stellung der Drehpunkte niemand gemessen.',
  ],
  [
    'The {side} leg presses: that says at least how much, so nothing of a spread or a chance.',
    'Das {side:e} Bein drückt: Das sagt nur „mindestens“, also nichts über Streuung oder Wahrscheinlichkeit.',
  ],
  [
    'The factory lean of the {side} boot is not known: its leans are not, its corrections are.',
    'Die Neigung ab Werk des {side:en} Schuhs ist nicht bekannt: seine Neigungen auch nicht, seine Korrekturen schon.',
  ],
  [
    'The factory lean of the {side} boot is not known: enter it, and the leg can be carried.',
    'Die Neigung ab Werk des {side:en} Schuhs ist nicht bekannt: eintragen, dann lässt sich das Bein übertragen.',
  ],
  [
    'No mark of the {side} pivots lies inside their travel.',
    'Kein Strich der Drehpunkte {side} liegt in ihrem Weg.',
  ],
  [
    "The travel of the {side} boot's {adj} pivot is not described.",
    'Der Weg des Drehpunkts {adj} am {side:en} Schuh ist nicht beschrieben.',
  ],
  ['The {side} boot has no {adj} adjuster.', 'Der {side:e} Schuh hat {adj} keinen Versteller.'],
  [
    'The {side} gaps were read at these pivots.',
    'Die Spalte {side} wurden bei dieser Stellung der Drehpunkte gemessen.',
  ],
  ['The {side} leg did not touch the cuff.', 'Das {side:e} Bein hat den Schaft nicht berührt.'],
  [
    'The {side} pivots have no marks that count evenly.',
    'Die Drehpunkte {side} haben keine Striche in gleichen Abständen.',
  ],
  [
    '{Side} {adj} pivot: anywhere in its travel, no marks.',
    'Drehpunkt {adj} {Side:s}: überall auf seinem Weg, ohne Striche.',
  ],
  [
    'The {side} boot has no {adj} slot to lengthen.',
    'Der {side:e} Schuh hat {adj} kein Langloch zum Verlängern.',
  ],
  ['The {side} boot has no slot to lengthen.', 'Der {side:e} Schuh hat kein Langloch zum Verlängern.'],
  [
    'One reading of the {side} gaps has no spread.',
    'Eine einzelne Messung der Spalte {side} hat keine Streuung.',
  ],
  ['Nothing keeps the {side} cuff from even.', 'Nichts hindert den {side:en} Schaft, gleich zu stehen.'],
  ['The travel of the {side} pivots is enough.', 'Der Weg der Drehpunkte {side} reicht.'],
  [
    'Tilt and offset of the {side} leg: read the gaps at two heights at least 30 mm apart, without a press.',
    'Kippung und Versatz des {side:en} Beins: Spalte in zwei Höhen messen, mindestens 30 mm auseinander, ohne Druck.',
  ],
  [
    'Nothing read before foretells the {side} cuff at this setting.',
    'Keine frühere Messung sagt den {side:en} Schaft in dieser Stellung voraus.',
  ],
  ['The {side} leg touches the cuff as it did before.', 'Das {side:e} Bein berührt den Schaft wie zuvor.'],
  [
    'One more reading of the {side} gaps would add little.',
    'Eine weitere Messung der Spalte {side} brächte wenig.',
  ],
  [
    'One more move of the {side} cuff is not worth it for being even alone.',
    'Den {side:en} Schaft allein dafür noch einmal zu verstellen, lohnt nicht.',
  ],
  ['The {side} cuff needs no longer slot.', 'Der {side:e} Schaft braucht kein längeres Langloch.'],
  [
    'Say whether the slots of the {side} boot may be lengthened.',
    'Eintragen, ob die Langlöcher des {side:en} Schuhs verlängert werden dürfen.',
  ],
  [
    'The slots of the {side} boot must not be lengthened.',
    'Die Langlöcher des {side:en} Schuhs dürfen nicht verlängert werden.',
  ],
  [
    'Before the slots of the {side} boot are lengthened, enter the least that must stay by its maker and {x}.',
    'Bevor die Langlöcher des {side:en} Schuhs verlängert werden, eintragen: was laut Hersteller mindestens bleiben muss, und {x}.',
  ],
  [
    'Before the slots of the {side} boot are lengthened, enter {x}.',
    'Bevor die Langlöcher des {side:en} Schuhs verlängert werden, eintragen: {x}.',
  ],
  ['No reading of the {side} cuff counts.', 'Keine Messung am {side:en} Schaft zählt.'],
  [
    "The {side} cuff presses on both sides: it says nothing of the leg's line.",
    'Der {side:e} Schaft drückt auf beiden Seiten: Er sagt nichts über die Linie des Beins.',
  ],

  // The shell.
  ['Measure the length of the {side} foot.', 'Länge des {side:en} Fußes messen.'],
  [
    'Measure the room behind the heel in the bare {side} shell, toes lightly touching.',
    'Platz hinter der Ferse in der leeren {side:en} Schale messen, die Zehen berühren leicht.',
  ],

  // Knee and cant.
  [
    'The {side} knee asks for more than a plate may give: refer on.',
    'Das {side:e} Knie braucht mehr, als eine Platte geben darf: weiterleiten.',
  ],
  ['Read the {side} knee again, since {list}.', '{Side:es} Knie noch einmal messen, denn {list}.'],
  [
    'The {side} readings leave open whether a wedge moves the knee: read it on a wedge.',
    'Die Messungen {side} lassen offen, ob ein Keil das Knie bewegt: auf einem Keil messen.',
  ],

  // The sole.
  ['The {side} cant is not chosen.', 'Das Canting {side} ist nicht gewählt.'],
  ['Choose the {side} cant again, since {list}.', 'Canting {side} noch einmal wählen, denn {list}.'],
  ['No work under the {side} boot was chosen.', 'Unter dem {side:en} Schuh wurde keine Arbeit gewählt.'],
  ['Measure the {side} sole again, since {list}.', '{Side:e} Sohle noch einmal messen, denn {list}.'],
  ['The finished {side} sole is not measured.', 'Die fertige {side:e} Sohle ist nicht gemessen.'],
  ['No limit of {x} is known.', 'Keine Grenze bekannt für: {x}.'],
  [
    'Enter how much solid material the {side} sole has over its underside: a point must stay outside.',
    'Eintragen, wie viel volles Material die {side:e} Sohle über ihrer Unterseite hat: Keine Spitze darf nach innen.',
  ],
  [
    'The {side} sole is too thin for these screws: none would grip and stay outside the boot.',
    'Die {side:e} Sohle ist zu dünn für diese Schrauben: Keine würde halten und außerhalb des Schuhs bleiben.',
  ],
  [
    'Not checked: measure from the ski’s running surface to the {side} sole.',
    'Nicht geprüft: von der Lauffläche des Skis bis zur {side:en} Sohle messen.',
  ],
  [
    'Not checked: measure from the {side} sole’s underside to the base of the heel inside.',
    'Nicht geprüft: von der Unterseite der {side:en} Sohle bis zum Boden unter der Ferse innen messen.',
  ],
  [
    'Not checked: enter the limit from the rules of your season.',
    'Nicht geprüft: Grenze aus den Regeln der Saison eintragen.',
  ],
  [
    'The {side} sole is planed: it gets no plates.',
    'Die {side:e} Sohle wird plangefräst: Sie bekommt keine Platten.',
  ],
  [
    'The {side} boot gets plates: its sole is not planed.',
    'Der {side:e} Schuh bekommt Platten: Seine Sohle wird nicht plangefräst.',
  ],
  [
    'The {side} sole is planed: no plate is screwed to it.',
    'Die {side:e} Sohle wird plangefräst: Keine Platte wird angeschraubt.',
  ],
  [
    'Enter the plate screws’ diameter, head depth and margin: no length is told without.',
    'Durchmesser, Sitztiefe und Rand der Plattenschrauben eintragen: ohne das wird keine Länge vorgegeben.',
  ],
  [
    'Nobody asked for a difference: both boots stand level.',
    'Niemand hat einen Unterschied verlangt: Beide Schuhe stehen gleich hoch.',
  ],
  ['The session is not marked as racing.', 'Die Sitzung ist nicht als Rennsport gekennzeichnet.'],
  [
    'Nothing could be checked: neither height is measured against a limit.',
    'Nichts zu prüfen: Keine der beiden Höhen ist gegen eine Grenze gemessen.',
  ],

  // Fore and aft.
  [
    'Read the {side} fore-aft angles again, since {list}.',
    'Winkel vor und zurück {side} noch einmal messen, denn {list}.',
  ],
  [
    "Read the {side} boot board's heights at heel and toe.",
    'Höhen des {side:en} Bootboards an Ferse und Zehe messen.',
  ],
  [
    'Read how high the {side} boot stands on the ski, at heel and toe.',
    'Messen, wie hoch der {side:e} Schuh auf dem Ski steht, an Ferse und Zehe.',
  ],
  [
    'Read the forward lean of the {side} cuff against the sole.',
    'Vorlage des {side:en} Schafts gegen die Sohle messen.',
  ],
];
