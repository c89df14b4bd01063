/** The steps of `trust-steps.ts` in German. Menus are named from memory; they move and are renamed. */
import type { Platform } from './trust-steps.ts';

type GermanSteps = Pick<Platform, 'title' | 'steps' | 'note'>;

export const GERMAN_STEPS: Readonly<Record<Platform['id'], GermanSteps>> = {
  android: {
    title: 'Tablet oder Telefon mit Android',
    steps: [
      'Das Zertifikat laden. Es liegt unter Downloads; das Gerät sagt vielleicht, dass es in den Einstellungen installiert werden muss.',
      'Einstellungen öffnen und „CA-Zertifikat“ suchen, oder zu Sicherheit und Datenschutz, Weitere Sicherheitseinstellungen, Verschlüsselung und Anmeldedaten gehen.',
      '„Zertifikat installieren“ antippen, dann „CA-Zertifikat“, dann „Trotzdem installieren“.',
      '„fibula-ca.crt“ unter Downloads wählen. „CA-Zertifikat installiert“ erscheint.',
    ],
    note: 'Das Gerät braucht eine Displaysperre und sagt danach, dass sein Netz vielleicht überwacht wird: Das sagt es bei jeder Zertifizierungsstelle, die sein Besitzer dazugibt. Chrome oder Edge verwenden; Firefox auf Android nimmt keine Zertifizierungsstellen des Geräts.',
  },
  ipad: {
    title: 'iPad oder iPhone',
    steps: [
      'In Safari das Zertifikat laden und „Zulassen“ antippen.',
      'Einstellungen öffnen, oben „Profil geladen“ antippen, dann „Installieren“, und den Code des Geräts eingeben.',
      'In den Einstellungen Allgemein öffnen, dann Info, und ganz unten „Zertifikatsvertrauenseinstellungen“.',
      'Den Schalter neben „Fibula workshop authority“ einschalten und „Fortfahren“ antippen.',
    ],
    note: 'Ohne die letzten zwei Schritte ist das Profil da, aber nicht vertraut. Ein Profil, das nicht in einigen Minuten installiert wird, verschwindet: noch einmal laden.',
  },
  windows: {
    title: 'Windows',
    steps: [
      'Das Zertifikat laden und die Datei „fibula-ca.crt“ öffnen.',
      '„Zertifikat installieren…“ anklicken, „Aktueller Benutzer“ wählen, dann „Weiter“.',
      '„Alle Zertifikate in folgendem Speicher speichern“ wählen, „Durchsuchen…“, und „Vertrauenswürdige Stammzertifizierungsstellen“.',
      '„Weiter“, „Fertig stellen“, und die Frage mit „Ja“ beantworten. Den Browser schließen und wieder öffnen.',
    ],
    note: 'Das gilt für Edge, Chrome und Firefox der letzten Jahre. Ein älterer Firefox: wie unter „Linux, und Firefox überall“.',
  },
  mac: {
    title: 'Mac',
    steps: [
      'Das Zertifikat laden und die Datei „fibula-ca.crt“ öffnen. Die Schlüsselbundverwaltung nimmt sie.',
      'In der Schlüsselbundverwaltung „Fibula workshop authority“ suchen und mit Doppelklick öffnen.',
      '„Vertrauen“ aufklappen und „Bei Verwendung dieses Zertifikats“ auf „Immer vertrauen“ stellen.',
      'Das Fenster schließen und mit Passwort oder Finger bestätigen.',
    ],
    note: 'Das gilt für Safari, Chrome und Edge. Ein Browser, der offen war: schließen und wieder öffnen.',
  },
  chromebook: {
    title: 'Chromebook',
    steps: [
      'Das Zertifikat laden. Es liegt in Dateien, unter Downloads.',
      'In den Einstellungen des Browsers Datenschutz und Sicherheit öffnen, Sicherheit, „Zertifikate verwalten“.',
      'Unter „Zertifizierungsstellen“ (oder „Von Ihnen installiert“) „Importieren“ und „fibula-ca.crt“ wählen.',
      '„Diesem Zertifikat zur Identifizierung von Websites vertrauen“ ankreuzen und „OK“ anklicken.',
    ],
    note: 'Auf einem Gerät, das eine Schule oder Firma verwaltet, muss das vielleicht deren Verwalter tun.',
  },
  linux: {
    title: 'Linux, und Firefox überall',
    steps: [
      'Das Zertifikat laden.',
      'Firefox: Einstellungen, Datenschutz & Sicherheit, Zertifikate, „Zertifikate anzeigen…“. Chromium: Einstellungen, Datenschutz und Sicherheit, Sicherheit, „Zertifikate verwalten“.',
      'Unter „Zertifizierungsstellen“ (Chromium: „Benutzerdefiniert“, „Vertrauenswürdige Zertifikate“) „Importieren…“ und „fibula-ca.crt“ wählen.',
      '„Dieser CA vertrauen, um Websites zu identifizieren“ ankreuzen und „OK“ anklicken.',
    ],
    note: 'Jeder Browser hat hier seine eigene Liste: in dem tun, den die Station verwendet.',
  },
};
