/** Wörter des Archivs: die Sitzungen aller Saisonen, gefunden und wieder gelesen. */
export const archive = {
  title: 'Alle Saisonen',
  find: 'Ticket, Name, Schuh, Anhänger oder Tag',
  findHint: 'Der Anfang jedes Wortes genügt: hub 120, oder 9.1.2026',
  which: 'Welche Aufträge',
  standings: { all: 'Alle', open: 'Offen', finished: 'Fertig' },
  list: 'Gefundene Aufträge',
  found: (n: number): string => `${n} ${n === 1 ? 'Auftrag' : 'Aufträge'}`,
  more: (shown: number, n: number): string =>
    `Die neuesten ${shown}, und ${n} weitere: noch ein Wort eingeben`,
  none: 'Kein Auftrag hat das alles. Vertippt? Der Anfang eines Wortes genügt.',
  empty: 'Noch keine Aufträge.',
  unread: (n: number): string =>
    `${n} ${n === 1 ? 'älterer Auftrag wird' : 'ältere Aufträge werden'} noch eingelesen und bald gefunden.`,
  unreachable: 'Der Server antwortet nicht, und nur er hat alle Saisonen. Was auf der Tafel steht, ist hier.',
  nameless: 'kein Name mehr',
  bootless: 'Schuhe nicht beschrieben',
  takenIn: (day: string): string => `angenommen ${day}`,
  lastOn: (day: string): string => `letzter Eintrag ${day}`,
  open: 'offen',
  finished: 'fertig',

  history: 'Schon hier gewesen',
  earlier: (n: number): string => `und ${n} frühere`,
  firstTime: 'Noch kein Auftrag hier.',
  knownHere: (n: number): string => (n === 0 ? '' : `${n} mit diesem Namen bekannt, darunter`),

  reopen: 'Wieder öffnen',
  finishedHint:
    'Dieser Auftrag ist fertig: Er wird gelesen, und nichts darin wird geändert. Wieder öffnen streicht die Übergabe.',
};
