/** What the server's no means, in German. */
import type * as english from '../answers.ts';
import { germanOf } from './plan.ts';

export const answers: typeof english.answers = {
  'all-photos-full':
    'Der Server hält so viele Fotos, wie er darf. In der gesperrten Ecke Daten alter Kunden löschen.',
  'broken-photo': 'Dieses Bild ist nicht ganz. Noch einmal aufnehmen.',
  changed: 'Das hat sich seit dem Anzeigen geändert. Noch einmal ansehen.',
  damaged: 'Diese Sitzung ist auf der Platte des Servers beschädigt. Seine Konsole sagt, was zu tun ist.',
  differs: 'Die beiden PINs sind verschieden. Zweimal dieselbe eingeben.',
  easy: 'Diese PIN ist zu leicht zu erraten: nicht lauter gleiche Ziffern und keine Folge wie 123456.',
  'ended-early': 'Die Anfrage kam nicht ganz an. Noch einmal versuchen.',
  erased: 'Persönliches aus dieser Sitzung wurde gelöscht.',
  'expired-code': 'Dieser Code ist abgelaufen. Einen neuen geben lassen.',
  failed: 'Der Server ist daran gescheitert. In seinem Protokoll steht, wie.',
  forbidden: 'Diese Station darf das nicht.',
  'foreign-origin': 'Änderungen nimmt der Server nur von seinen eigenen Seiten. Seine eigene Adresse öffnen.',
  gone: 'Diese Anfrage gibt es nicht mehr. Die Station darf noch einmal fragen.',
  locked: 'Die gesperrte Ecke hat sich gesperrt. PIN noch einmal eingeben.',
  'models-full': 'Der Katalog hält so viele Modelle, wie er darf. Erst einige entfernen.',
  'no-photo': 'Das ist kein Bild, das hier genommen wird: JPEG, PNG oder ein stehendes WebP.',
  'no-pin': 'Noch ist keine PIN gesetzt. Zuerst eine setzen.',
  'no-session':
    'Diese Sitzung gibt es nicht, und die Einträge eröffnen sie nicht; oder die Platte hat sie nicht genommen. Sie bleiben hier.',
  'no-table': 'Diese Datei ist keine Tabelle, die hier gelesen wird. Als CSV in UTF-8 speichern.',
  'not-found': 'Der Server kennt nicht, wonach gefragt wurde. Seite neu laden.',
  'not-json': 'Der Server hat das nicht verstanden. Seite neu laden.',
  'other-name':
    'Das ist nicht der Name dieses Kunden. Nichts wurde gelöscht. Den Namen so eingeben, wie er angezeigt ist.',
  own: 'Das ist die Theke, an der Sie stehen. Von einer anderen aus machen.',
  'photos-full': 'Diese Sitzung hält so viele Fotos, wie sie darf. Einige zurücknehmen.',
  'read-only': 'Der Server nimmt zurzeit keine Einträge. Sie warten auf den Stationen.',
  revoked: 'Dieser Station wurde an der Theke der Zugang entzogen.',
  set: 'Eine andere Theke hat gerade eine PIN gesetzt.',
  shape: 'Der Server nimmt das so, wie es eingegeben ist, nicht. Noch einmal ansehen.',
  'studies-full': 'Der Server hält so viele Studien, wie er darf.',
  'too-large': 'Das ist größer, als der Server nimmt.',
  'too-many': 'Zu viel auf einmal. Warten, dann noch einmal versuchen.',
  'too-many-pixels': 'Dieses Bild hat mehr Bildpunkte, als der Server nimmt.',
  'unknown-host': 'Auf diese Adresse antwortet der Server nicht. Seine eigene öffnen.',
  'unknown-session': 'Der Server kennt keine solche Sitzung.',
  unpaired: 'Diese Station ist nicht oder nicht mehr gekoppelt.',
  wait: 'Zu viele falsche PINs. Vor dem nächsten Versuch warten.',
  'wrong-code': 'Dieser Code ist nicht bekannt. Ein Code gilt einmal.',
  'wrong-pin': 'Das ist nicht die PIN.',
};

/** The server's sentence in German; null where the catalogue has none. */
export const sentenceOf = germanOf;
