/** Die Wörter von `../opening.ts` auf Deutsch. */
export const opening = {
  title: 'Zeiten und Hände',
  lead: 'Womit gerechnet wird, wann ein Auftrag fertig ist. Keine Zahl eines Schuhs hängt davon ab.',
  hands: 'Leute, die gleichzeitig arbeiten',
  days: 'Offene Türen',
  open: (day: string): string => `${day}: offen`,
  from: (day: string): string => `${day} von`,
  to: (day: string): string => `${day} bis`,
  closed: 'geschlossen',
  save: 'Zeiten und Hände speichern',
  saved: 'Gespeichert. Wann Aufträge fertig sind, wird neu gerechnet.',
  badHands: 'Eine ganze Zahl von 1 bis 20 eintippen.',
  badDay: 'Zwei Uhrzeiten wie 9:00 und 18:00 eintippen, die spätere als zweite.',
  allClosed: 'Mindestens ein Tag muss offen sein.',
  unreachable: 'Der Server des Betriebs ist nicht erreichbar: Es wurde nichts gespeichert.',
};
