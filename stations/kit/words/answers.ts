/** What the server's no to a request means, by its code; `core/wire.ts` lists the codes. */
import { isNoCode } from '../../../core/index.ts';
import type { NoCode } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/answers.ts';
import './plan-server.ts';

const answersEn: Record<NoCode, string> = {
  'all-photos-full':
    'The server holds as many photos as it may. Erase old clients’ data in the locked corner.',
  'broken-photo': 'This picture is not whole. Take it again.',
  changed: 'This has changed since it was shown. Look at it again.',
  damaged: 'This session is damaged on the server’s disk. The server’s console says what to do.',
  differs: 'The two PINs differ. Type the same one twice.',
  easy: 'This PIN is too easy to guess: not all digits alike, and no run like 123456.',
  'ended-early': 'The request did not arrive whole. Try again.',
  erased: 'What is personal in this session was erased.',
  'expired-code': 'This code has expired. Ask for a new one.',
  failed: 'The server failed on this. Its log says how.',
  forbidden: 'This station may not do this.',
  'foreign-origin': 'Changes are taken from this server’s own pages only. Open the server’s own address.',
  gone: 'This request is no longer there. The station may ask again.',
  locked: 'The locked corner has locked itself. Enter the PIN again.',
  'models-full': 'The catalogue holds as many models as it may. Remove some first.',
  'no-photo': 'This is no picture that is taken here: JPEG, PNG or a still WebP.',
  'no-pin': 'No PIN is set yet. Set one first.',
  'no-session':
    'There is no such session, and these entries do not open it; or the disk did not take them. They stay here.',
  'no-table': 'This file is no table that is read here. Save it as CSV in UTF-8.',
  'not-found': 'The server does not know what was asked for. Load the page again.',
  'not-json': 'The server did not understand this. Load the page again.',
  'other-name': 'This is not the name of this client. Nothing was erased. Type the name as it is shown.',
  own: 'This is the desk you are at. Do it from another desk.',
  'photos-full': 'This session holds as many photos as it may. Take some of them back.',
  'read-only': 'The server takes no entries for now. They wait on the stations.',
  revoked: 'This station was revoked at the desk.',
  set: 'Another desk has just set a PIN.',
  shape: 'The server does not take this as it was typed. Look at it again.',
  'studies-full': 'The server holds as many studies as it may.',
  'too-large': 'This is larger than the server takes.',
  'too-many': 'Too much at once. Wait, then try again.',
  'too-many-pixels': 'This picture has more pixels than the server takes.',
  'unknown-host': 'The server does not answer to this address. Open its own one.',
  'unknown-session': 'The server knows no such session.',
  unpaired: 'This station is not paired, or no longer.',
  wait: 'Too many wrong PINs. Wait before the next try.',
  'wrong-code': 'This code is not known. A code works once.',
  'wrong-pin': 'This is not the PIN.',
};
export const answers: Words<typeof answersEn> = inLanguage(answersEn, german.answers);

/** What the schema says of a field is for programs. */
const UNSPOKEN: ReadonlySet<string> = new Set<NoCode>(['shape', 'not-json']);

interface Said {
  readonly code: string;
  readonly text: string;
}

/**
 * A no in this station's language. The server's own sentence says more than its code, how long to wait for one; it is
 * taken where this language has it. `unreachable` is for no answer at all.
 */
export function sayNo({ code, text }: Said, unreachable: string): string {
  if (code === 'unreachable') return unreachable;
  const said = UNSPOKEN.has(code) ? '' : inLanguage(text, german.sentenceOf(text) ?? '');
  return said || answers[isNoCode(code) ? code : 'failed'];
}
