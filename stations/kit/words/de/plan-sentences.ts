/**
 * English sentences of the plan with their German. `{side:en}` is left or right with its ending, `{adj}` innen or außen,
 * `{n}` a number, `{x}` a phrase and `{list}` several. The first that fits is taken.
 */
export const SENTENCES: readonly (readonly [english: string, german: string])[] = [
  // Cautions: as strict as in English.
  [
    'This tool gives no binding release values and is no substitute for a certified technician, a clinician, the makers’ instructions or local rules.',
    'Dieses Werkzeug gibt keine Auslösewerte für Bindungen und ersetzt weder zertifizierte Fachkraft noch Arzt, Anleitungen der Hersteller oder örtliche Vorschriften.',
  ],
  [
    'Pain, numbness, recent surgery or fracture, joint replacement or swelling: refer the skier to a clinician before any work.',
    'Schmerz, Taubheit, frische Operation oder Bruch, künstliches Gelenk oder Schwellung: vor jeder Arbeit ärztlich abklären lassen.',
  ],
  [
    'A loose pivot bolt can let the cuff give way on snow: tighten both to the maker’s figure and check them before the boot is worn.',
    'Eine lose Schraube am Drehpunkt kann den Schaft auf Schnee nachgeben lassen: beide nach Angabe des Herstellers festziehen und prüfen, bevor der Schuh getragen wird.',
  ],
  [
    'Some thread-lockers crack shell plastics: use only what the boot’s maker allows.',
    'Manche Schraubensicherungen lassen Schalenkunststoff reißen: nur verwenden, was der Hersteller des Schuhs erlaubt.',
  ],
  [
    'A longer slot weakens the shell and cannot be undone: only with the owner’s agreement, and never nearer to an edge than the maker allows.',
    'Ein längeres Langloch schwächt die Schale und ist endgültig: nur mit Einverständnis des Besitzers, und nie näher an einen Rand, als der Hersteller erlaubt.',
  ],
  [
    'Reworked pivots can end the maker’s warranty: say so before the work.',
    'Umgebaute Drehpunkte können die Garantie des Herstellers beenden: vor der Arbeit sagen.',
  ],
  [
    'Heat can burn skin with poor feeling, and grinding makes dust: no foot in a hot shell, eyes and lungs protected, extraction on.',
    'Hitze kann gefühllose Haut verbrennen, und Schleifen macht Staub: kein Fuß in eine heiße Schale, Augen und Lunge schützen, Absaugung an.',
  ],
  [
    'A changed sole can keep a binding from releasing: do not ski until boot, binding and ski have been tested together by a certified technician.',
    'Eine veränderte Sohle kann verhindern, dass die Bindung auslöst: nicht fahren, bevor Schuh, Bindung und Ski zusammen von einer zertifizierten Fachkraft geprüft sind.',
  ],
  [
    'Router and planer: clamp the boot, wear eye protection, extraction on, hands clear of the cutter.',
    'Fräse und Hobel: Schuh einspannen, Schutzbrille tragen, Absaugung an, Hände weg vom Fräser.',
  ],
  [
    'Moulded or metal inserts, and screw points inside the boot: nothing is cut or drilled without the maker’s approval on record.',
    'Eingegossene Teile oder Inserts aus Metall, und Schraubenspitzen im Schuh: Ohne Freigabe des Herstellers im Protokoll wird nichts geschnitten oder gebohrt.',
  ],
  [
    'Competition and youth rules limit what may be under a boot: check the rules of the season.',
    'Wettkampf- und Jugendregeln begrenzen, was unter einem Schuh sein darf: die Regeln der Saison prüfen.',
  ],
  [
    'A skier standing on test wedges can fall: a rail within reach, and step on only when told.',
    'Wer auf Testkeilen steht, kann stürzen: Geländer in Reichweite, und nur auf Ansage aufsteigen.',
  ],
  [
    'A difference in stand height follows the word of a clinician or of the skier, as recorded: this tool advises none.',
    'Ein Unterschied der Standhöhe folgt dem Wort von Arzt oder Skifahrer, wie eingetragen: Dieses Werkzeug rät zu keinem.',
  ],
  [
    'Check that every pivot bolt is tight before the boots are worn, and again after the first runs.',
    'Prüfen, ob jede Schraube am Drehpunkt fest ist, bevor die Schuhe getragen werden, und noch einmal nach den ersten Abfahrten.',
  ],

  // What to do next.
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
    'It may be even already ({n} %): one more reading before moving is worth it.',
    'Vielleicht schon gleich ({n} %): vor dem Verstellen lohnt eine weitere Messung.',
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
  ['{Side} boot: clear the hot spot at: {raw}.', '{Side:er} Schuh: Druckstelle frei machen: {raw}.'],
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

  // Steps.
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

  // What is missing.
  [
    'Describe the {side} boot and its pivot hardware.',
    'Den {side:en} Schuh und seine Verstellung beschreiben.',
  ],
  [
    "Record where the {side} cuff's pivots stand, or bring them to neutral.",
    'Eintragen, wo die Drehpunkte des {side:en} Schafts stehen, oder auf Neutral stellen.',
  ],
  [
    'Record where both pivots of the {side} cuff stand.',
    'Eintragen, wo beide Drehpunkte des {side:en} Schafts stehen.',
  ],
  [
    'Record the cant under the {side} boot: a sole nobody looked at is not flat.',
    'Canting unter dem {side:en} Schuh eintragen: Eine Sohle, die niemand angesehen hat, ist nicht flach.',
  ],
  ['Measure the sole’s width at toe and heel.', 'Breite der Sohle an Zehe und Ferse messen.'],
  [
    'Enter the distance between the centres of the two bearing zones: a fore-aft wedge is measured over it.',
    'Abstand der Mitten beider Auflagezonen eintragen: Ein Keil längs wird darüber gemessen.',
  ],
  [
    'Measure the lugs before the work, and enter their standard heights: the lifter follows from them.',
    'Sohlenränder vor der Arbeit messen und ihre Normhöhen eintragen: Daraus folgt die Unterlagsplatte.',
  ],
  [
    'Measure the lugs before the work: no routing is told without.',
    'Sohlenränder vor der Arbeit messen: ohne das wird kein Fräsen vorgegeben.',
  ],
  [
    'Enter the least lug that must be left (maker’s or shop’s figure): no routing is told without.',
    'Eintragen, wie viel Sohlenrand mindestens bleiben muss (Hersteller oder Werkstatt): ohne das wird kein Fräsen vorgegeben.',
  ],
  [
    'Enter how thick the replaceable sole is: it is no solid lug.',
    'Eintragen, wie dick die wechselbare Sohle ist: Sie ist kein voller Sohlenrand.',
  ],
  [
    'The standard height of the {x} lug is not known: enter it from your copy of the standard.',
    'Die Normhöhe des Sohlenrands ({x}) ist nicht bekannt: aus der eigenen Ausgabe der Norm eintragen.',
  ],
  [
    'The {x} lug would stand {n} mm too low at its {adj} edge.',
    'Der Sohlenrand ({x}) stünde {adj} um {n} mm zu tief.',
  ],
  [
    'Only {n} mm of the {x} lug would be left at its {adj} edge; at least {n2} mm must be.',
    'Vom Sohlenrand ({x}) blieben {adj} nur {n} mm; mindestens {n2} mm müssen bleiben.',
  ],
  [
    'Nothing is proposed for the {side} sole without the maker’s approval on record: {x}.',
    'Für die {side:e} Sohle wird ohne Freigabe des Herstellers im Protokoll nichts vorgeschlagen: {x}.',
  ],
  [
    'The {side} sole is replaceable: replace or plate it rather than plane {n}° off it.',
    'Die {side:e} Sohle ist wechselbar: ersetzen oder mit Platten versehen, statt {n}° abzufräsen.',
  ],

  // Problems.
  [
    '{x} ({side}): {raw} disagree, and neither knew of the other.',
    '{x} ({side}): {raw} widersprechen sich, und keiner wusste vom anderen.',
  ],
  [
    '{x}: {raw} disagree, and neither knew of the other.',
    '{x}: {raw} widersprechen sich, und keiner wusste vom anderen.',
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
    "The {side} boot's {adj} pivot is recorded at {raw}, outside its travel.",
    'Der Drehpunkt {adj} am {side:en} Schuh ist bei {raw} eingetragen, außerhalb seines Wegs.',
  ],
  [
    "The {side} boot's {adj} pivot is recorded at {raw}, between two marks.",
    'Der Drehpunkt {adj} am {side:en} Schuh ist bei {raw} eingetragen, zwischen zwei Strichen.',
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
    'The {side} shell counts as settled, and nobody worked the hot spot noted at: {raw}.',
    'Die {side:e} Schale gilt als geklärt, aber niemand hat die Druckstelle bearbeitet: {raw}.',
  ],
  [
    'The {side} boot: {raw} cannot be undone, and no agreement of the owner stood on record before it.',
    '{side:S}, Schuh: {raw} ist endgültig, und vorher stand kein Einverständnis des Besitzers im Protokoll.',
  ],
  [
    'The {side} boot: {raw} cannot be undone, and no approval of the maker stood on record before it.',
    '{side:S}, Schuh: {raw} ist endgültig, und vorher stand keine Freigabe des Herstellers im Protokoll.',
  ],
  ['The boots were handed over too early, with {list}.', 'Die Schuhe wurden zu früh übergeben: {list}.'],

  // General forms, tried last.
  ['{Side} boot: {parts}.', '{Side:er} Schuh: {parts}.'],
  ['{Side} boot: {x}', '{Side:er} Schuh: {x}'],
];
