/** Cautions of the plan in German, as strict as in English; in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const CAUTIONS: Sentences = [
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
    'An overheated shell gives off fumes and loses its strength: the maker’s temperature and time first, measured on the surface, heat-proof gloves on, ventilation on.',
    'Eine überhitzte Schale gibt Dämpfe ab und verliert ihre Festigkeit: zuerst Temperatur und Zeit des Herstellers, an der Oberfläche gemessen, Hitzehandschuhe an, Lüftung an.',
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
];
