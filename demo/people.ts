/** The people of a made-up mountain village. None of them exists; their addresses cannot be reached. */

export interface Person {
  readonly ref: string;
  readonly name: string;
  readonly contact: string;
  readonly language: 'en' | 'de';
}

const person = (ref: string, name: string, language: Person['language'] = 'de'): Person => ({
  ref,
  name,
  contact: `${ref}@village.example`,
  language,
});

export const PEOPLE: readonly Person[] = [
  person('ilva', 'Ilva Rautenquell'),
  person('tomme', 'Tomme Birkstaub', 'en'),
  person('josine', 'Josine Halmdreher'),
  person('radko', 'Radko Winterzopf'),
  person('mirte', 'Mirte Eisvogler', 'en'),
  person('benno', 'Benno Zapfenlauf'),
  person('salka', 'Salka Tannhauch'),
  person('ruven', 'Ruven Krumholm', 'en'),
  person('odile', 'Odile Schieferbruch'),
  person('finja', 'Finja Lawinsky', 'en'),
  person('gero', 'Gero Almstecken'),
  person('nele', 'Nele Firnblick'),
];
