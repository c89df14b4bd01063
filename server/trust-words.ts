/** What the trust page says, in English and German; it runs no script, so the words are the server's. */

export type PageLanguage = 'en' | 'de';

interface TrustWords {
  readonly title: string;
  readonly lead: string;
  readonly load: string;
  readonly loadButton: string;
  readonly compare: string;
  readonly compareHow: string;
  readonly comparePicture: string;
  readonly trust: string;
  readonly platformPicture: string;
  readonly menusMove: string;
  readonly open: string;
  readonly openHow: string;
  readonly later: string;
  readonly laterHow: string;
  readonly laterButton: string;
  readonly closed: string;
  readonly noNext: string;
}

export const TRUST_WORDS: Readonly<Record<PageLanguage, TrustWords>> = {
  en: {
    title: 'Trust this workshop’s server',
    lead: 'Stations speak to the server over an encrypted connection. So that this device knows the server, it needs the workshop’s own certificate authority, once. The authority can vouch for this workshop’s server only.',
    load: 'Load',
    loadButton: 'Load the certificate',
    compare: 'Compare',
    compareHow:
      'This is the certificate’s SHA-256 fingerprint. Compare it with the one on the server’s console or on paper. If they differ, stop, and tell whoever runs the server.',
    comparePicture: 'The same letters on the server’s console and on this page',
    trust: 'Trust',
    platformPicture: 'Four fields, one for each of the steps below',
    menusMove: 'Menus move and are renamed. Searching the settings for “certificate” finds most of them.',
    open: 'Open',
    openHow:
      'Enter the pairing code there. A warning about the connection means that step 3 is not finished; one about the date means that this device’s clock is wrong.',
    later: 'For later',
    laterHow:
      'Another authority is going to follow the present one. Trust it now in the same way, and this device goes on without a break.',
    laterButton: 'Load the next certificate',
    closed: 'This page is open while a pairing code is waiting to be used. Ask the desk for a code.',
    noNext: 'No other authority is going to follow.',
  },
  de: {
    title: 'Dem Server dieser Werkstatt vertrauen',
    lead: 'Stationen sprechen mit dem Server über eine verschlüsselte Verbindung. Damit dieses Gerät den Server kennt, braucht es einmal die eigene Zertifizierungsstelle der Werkstatt. Sie kann nur für den Server dieser Werkstatt bürgen.',
    load: 'Laden',
    loadButton: 'Zertifikat laden',
    compare: 'Vergleichen',
    compareHow:
      'Das ist der SHA-256-Fingerabdruck des Zertifikats. Mit dem auf der Konsole des Servers oder auf Papier vergleichen. Sind sie verschieden: aufhören und dem Bescheid geben, der den Server betreibt.',
    comparePicture: 'Dieselben Zeichen auf der Konsole des Servers und auf dieser Seite',
    trust: 'Vertrauen',
    platformPicture: 'Vier Felder, eines für jeden Schritt darunter',
    menusMove:
      'Menüs wandern und werden umbenannt. Die Suche nach „Zertifikat“ in den Einstellungen findet die meisten.',
    open: 'Öffnen',
    openHow:
      'Dort den Code eingeben. Eine Warnung wegen der Verbindung heißt, dass Schritt 3 nicht fertig ist; eine wegen des Datums, dass die Uhr dieses Geräts falsch geht.',
    later: 'Für später',
    laterHow:
      'Auf die jetzige Zertifizierungsstelle folgt eine andere. Ihr jetzt ebenso vertrauen, dann arbeitet dieses Gerät ohne Unterbrechung weiter.',
    laterButton: 'Nächstes Zertifikat laden',
    closed:
      'Diese Seite ist offen, solange ein Code auf seine Benutzung wartet. Die Theke um einen Code bitten.',
    noNext: 'Es folgt keine andere Zertifizierungsstelle.',
  },
};

/** The other language, as it calls itself. */
export const OTHER: Readonly<Record<PageLanguage, { readonly to: PageLanguage; readonly name: string }>> = {
  en: { to: 'de', name: 'Deutsch' },
  de: { to: 'en', name: 'English' },
};

/** What was asked for (`?lang=de`), else what the browser would rather read, else English. */
export function pageLanguage(asked: string | undefined, accepts: string | undefined): PageLanguage {
  if (asked === 'de' || asked === 'en') return asked;
  const rank = (language: PageLanguage): number => {
    const found = new RegExp(`(?:^|,)\\s*${language}\\b[^,;]*(?:;q=([\\d.]+))?`, 'i').exec(accepts ?? '');
    return found ? Number(found[1] ?? 1) : 0;
  };
  return rank('de') > rank('en') ? 'de' : 'en';
}
