/** Sentences of the server that say more than their code, in German, in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const SERVER: Sentences = [
  ['This is not the PIN.', 'Das ist nicht die PIN.'],
  ['Too many wrong PINs.', 'Zu viele falsche PINs.'],
  ['Wait {n} second before the next try.', 'Vor dem nächsten Versuch {n} Sekunde warten.'],
  ['Wait {n} seconds before the next try.', 'Vor dem nächsten Versuch {n} Sekunden warten.'],
  ['Wait {n} minute before the next try.', 'Vor dem nächsten Versuch {n} Minute warten.'],
  ['Wait {n} minutes before the next try.', 'Vor dem nächsten Versuch {n} Minuten warten.'],
  ['Too many wrong codes; wait ten minutes.', 'Zu viele falsche Codes; zehn Minuten warten.'],
  [
    'Too many codes are waiting to be used; wait until some expire.',
    'Zu viele Codes warten darauf, benutzt zu werden; warten, bis einige ablaufen.',
  ],
  [
    'Too many stations ask to be let back in; wait ten minutes.',
    'Zu viele Stationen bitten, wieder eingelassen zu werden; zehn Minuten warten.',
  ],
  ['Too many photos; wait a minute.', 'Zu viele Fotos; eine Minute warten.'],
  ['Too many requests; wait a minute.', 'Zu viele Anfragen; eine Minute warten.'],
  ['Too many requests: at most {n} in ten seconds.', 'Zu viele Anfragen: höchstens {n} in zehn Sekunden.'],
  ['A request has at most {n} bytes.', 'Eine Anfrage hat höchstens {n} Bytes.'],
  ['A table has at most {n} bytes.', 'Eine Tabelle hat höchstens {n} Bytes.'],
  [
    'A catalogue holds {n} models; remove some first.',
    'Ein Katalog hält {n} Modelle; erst einige entfernen.',
  ],
  [
    'This study is finished: its readings stay as they are.',
    'Diese Studie ist fertig: Ihre Messungen bleiben, wie sie sind.',
  ],
  [
    'This study is not finished: nothing can be set by it.',
    'Diese Studie ist nicht fertig: Nach ihr lässt sich nichts einstellen.',
  ],
  ['The server holds {n} studies, and takes no more.', 'Der Server hält {n} Studien und nimmt keine mehr.'],
  [
    'The file is not UTF-8 text: save it as CSV in UTF-8.',
    'Die Datei ist kein Text in UTF-8: als CSV in UTF-8 speichern.',
  ],
  ['The file is no CSV: {raw}.', 'Die Datei ist keine CSV-Datei: {raw}.'],
  ['A photo has at most {n} bytes.', 'Ein Foto hat höchstens {n} Bytes.'],
  [
    'A photo has at most {n} pixels along its longer side.',
    'Ein Foto hat an seiner längeren Seite höchstens {n} Bildpunkte.',
  ],
  [
    'A session holds {n} photos; take some of them back.',
    'Eine Sitzung hält {n} Fotos; einige zurücknehmen.',
  ],
  ['The photos of this session were erased.', 'Die Fotos dieser Sitzung wurden gelöscht.'],
  [
    'There are more or fewer entries than were shown; look again.',
    'Es sind mehr oder weniger Einträge als angezeigt; noch einmal ansehen.',
  ],
  [
    'This request is no longer as it was shown; look at it again.',
    'Diese Anfrage ist nicht mehr, wie sie angezeigt war; noch einmal ansehen.',
  ],
  [
    'This is the desk you are at; take its role away from another desk.',
    'Das ist die Theke, an der Sie stehen; ihre Aufgabe von einer anderen Theke aus wegnehmen.',
  ],
  [
    'This is the desk you are at; revoke it from another desk.',
    'Das ist die Theke, an der Sie stehen; von einer anderen Theke aus den Zugang entziehen.',
  ],

  // A setting against another one.
  ['{raw}: must be less than {raw2}, {n} {raw3}.', '{raw}: muss kleiner sein als {raw2}, {n} {raw3}.'],
  ['{raw}: must be more than {raw2}, {n} {raw3}.', '{raw}: muss größer sein als {raw2}, {n} {raw3}.'],

  // The server's disk and its backups.
  [
    'The disk is full: no entries are taken until some space is free. They wait on the stations.',
    'Die Platte ist voll: Bis Platz frei ist, werden keine Einträge genommen. Sie warten auf den Stationen.',
  ],
  [
    'The data directory may not be written: no entries are taken until it may. They wait on the stations.',
    'Das Datenverzeichnis darf nicht beschrieben werden: Bis dahin werden keine Einträge genommen. Sie warten auf den Stationen.',
  ],
  [
    'The disk does not take what is written: no entries are taken for now. They wait on the stations.',
    'Die Platte nimmt nicht, was geschrieben wird: Zurzeit werden keine Einträge genommen. Sie warten auf den Stationen.',
  ],
  [
    'Another program holds the database: no entries are taken until it lets go. They wait on the stations.',
    'Ein anderes Programm hält die Datenbank: Bis es loslässt, werden keine Einträge genommen. Sie warten auf den Stationen.',
  ],
  [
    'The database is damaged: no entries are taken. They wait on the stations. Start the server again: it says what to do.',
    'Die Datenbank ist beschädigt: Es werden keine Einträge genommen. Sie warten auf den Stationen. Den Server neu starten: Er sagt, was zu tun ist.',
  ],
  ['There has been no backup for two days.', 'Seit zwei Tagen gibt es keine Sicherung.'],
  ['The daily backup failed: {raw}', 'Die tägliche Sicherung ist misslungen: {raw}'],

  // What the corner shows under “Server”.
  [
    'The server’s address has changed: it was {raw} and is {raw2} now.',
    'Die Adresse des Servers hat sich geändert: Sie war {raw} und ist jetzt {raw2}.',
  ],
  [
    'Open the new address on every station and pair it there.',
    'Auf jeder Station die neue Adresse öffnen und dort koppeln.',
  ],
  [
    'Entries that a tablet still shows as waiting stay under the old address: look at each tablet first, and where something waits, give this machine its old address back until it is saved.',
    'Einträge, die ein Tablet noch als wartend zeigt, bleiben unter der alten Adresse: zuerst jedes Tablet ansehen, und wo etwas wartet, diesem Rechner seine alte Adresse zurückgeben, bis es gespeichert ist.',
  ],
  [
    'A fixed address in the router keeps this from happening.',
    'Eine feste Adresse im Router verhindert das.',
  ],
  [
    'This machine’s clock says {day}, which is before its certificates were made ({day2}).',
    'Die Uhr dieses Rechners zeigt {day}, das ist vor der Ausstellung seiner Zertifikate ({day2}).',
  ],
  [
    'Set the clock: until then times are wrong, and certificates are not renewed.',
    'Uhr stellen: Bis dahin sind Zeiten falsch, und Zertifikate werden nicht erneuert.',
  ],
  [
    'This server has another certificate authority than the stations know.',
    'Dieser Server hat eine andere Zertifizierungsstelle, als die Stationen kennen.',
  ],
  [
    'Each station has to trust the new one before it can connect: {raw}, “A new server machine”.',
    'Jede Station muss der neuen vertrauen, bevor sie sich verbinden kann: {raw}, „A new server machine“.',
  ],
  [
    '{raw} is not in the certificate: the shop’s authority was made before it and may not vouch for it.',
    '{raw} steht nicht im Zertifikat: Die Zertifizierungsstelle der Werkstatt ist älter und darf dafür nicht bürgen.',
  ],
  [
    '{raw} are not in the certificate: the shop’s authority was made before them and may not vouch for them.',
    '{raw} stehen nicht im Zertifikat: Die Zertifizierungsstelle der Werkstatt ist älter und darf dafür nicht bürgen.',
  ],
  [
    'Stations that use another address are not touched.',
    'Stationen mit einer anderen Adresse betrifft das nicht.',
  ],
  [
    'To use it, make a new authority with: {raw}.',
    'Um sie zu verwenden, eine neue Zertifizierungsstelle machen mit: {raw}.',
  ],
  [
    'To use them, make a new authority with: {raw}.',
    'Um sie zu verwenden, eine neue Zertifizierungsstelle machen mit: {raw}.',
  ],
  ['Every station must then trust it anew.', 'Jede Station muss ihr dann neu vertrauen.'],
  ['A new certificate authority is ready.', 'Eine neue Zertifizierungsstelle ist bereit.'],
  [
    'Let every station trust it from the trust page, then go over to it with: {raw}.',
    'Jede Station ihr über die Vertrauensseite vertrauen lassen, dann auf sie umstellen mit: {raw}.',
  ],
  ['The present one works until {day}.', 'Die jetzige gilt bis {day}.'],
  [
    'The shop’s certificate authority ended on {day}, and browsers refuse this server.',
    'Die Zertifizierungsstelle der Werkstatt ist am {day} abgelaufen, und Browser weisen diesen Server ab.',
  ],
  [
    'If this machine’s clock is right, make a new one with: {raw}.',
    'Stimmt die Uhr dieses Rechners, eine neue machen mit: {raw}.',
  ],
  ['Every station must then trust it: {raw}.', 'Jede Station muss ihr dann vertrauen: {raw}.'],
  [
    'The shop’s certificate authority ends on {day}.',
    'Die Zertifizierungsstelle der Werkstatt läuft am {day} ab.',
  ],
  ['Make the next one in good time with: {raw}.', 'Die nächste rechtzeitig machen mit: {raw}.'],
  [
    'The present one works on meanwhile: {raw}, “After ten years”.',
    'Die jetzige gilt so lange weiter: {raw}, „After ten years“.',
  ],

  // Entries of revoked stations that are not kept.
  [
    'an entry has at most {n} bytes; this one has {n2}',
    'ein Eintrag hat höchstens {n} Bytes; dieser hat {n2}',
  ],
  ['by.station must be {raw}', 'gehört einer anderen Station'],
];
