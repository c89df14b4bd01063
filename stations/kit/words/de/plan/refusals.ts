/** Why an entry was not taken, in German, in the form of sentences.ts; said after the field's name. */
import type { Sentences } from './sentences.ts';

export const REFUSALS: Sentences = [
  ['must be at most {n} ({x})', 'darf höchstens {n} sein ({x})'],
  ['must be at least {n} ({x})', 'muss mindestens {n} sein ({x})'],
  ['must be 0 where the leg touches ({x})', 'muss 0 sein, wo das Bein berührt ({x})'],
  ['must be graze or press where the leg touches', 'muss streift oder drückt sein, wo das Bein berührt'],
  ['must have at most {n} characters', 'darf höchstens {n} Zeichen haben'],
  ['must have at most {n} entries', 'darf höchstens {n} Einträge haben'],
  ['must have at least {n} character', 'muss mindestens {n} Zeichen haben'],
  ['must have at least {n} entry', 'muss mindestens {n} Eintrag haben'],
  ['must be a whole number ({x})', 'muss eine ganze Zahl sein ({x})'],
  ['must be a number ({x})', 'muss eine Zahl sein ({x})'],
  ['must be a text ({x})', 'muss ein Text sein ({x})'],
  ['must be true or false ({x})', 'muss wahr oder falsch sein ({x})'],
  ['must be a list ({x})', 'muss eine Liste sein ({x})'],
  ['must be an object ({x})', 'muss ein Objekt sein ({x})'],
  ['must be an object', 'muss ein Objekt sein'],
  ['must be within bounds ({x})', 'muss in den Grenzen liegen ({x})'],
  ['does not fit ({x})', 'passt nicht ({x})'],
  ['must be {raw} ({x})', 'muss {raw} sein ({x})'],
  ['is not a field of this kind', 'gehört nicht zu diesem Eintrag'],
  [
    'is version {n} of {raw}; this program knows {n2}',
    'ist Version {n} von {raw}; dieses Programm kennt {n2}',
  ],
  ['is unknown: {raw}', 'ist unbekannt: {raw}'],
  ['is missing', 'fehlt'],
  ['is {raw}', 'ist {raw}'],

  ['must be {raw}', 'muss {raw} sein'],
  ['{raw} is written by {list}', '{raw} schreibt nur: {list}'],
  ['{raw} is another fact', '{raw} ist ein anderer Eintrag'],
  ['a session begins with session.opened', 'eine Sitzung beginnt mit ihrer Eröffnung'],
  ['the session is open already', 'die Sitzung ist schon eröffnet'],
  ['a session holds {n} facts', 'eine Sitzung fasst {n} Einträge'],
  [
    'is a personal text; those of this session were erased',
    'ist ein persönlicher Text; die dieser Sitzung wurden gelöscht',
  ],
  ['{raw} is not in this session', '{raw} gibt es in dieser Sitzung nicht'],
];
