/**
 * How each kind of device is told to trust an authority, for people who do it once in years. Menus are named as
 * makers named them when this was written, from memory; they move and are renamed.
 */
export interface Platform {
  /** Also the name of its picture, `docs/pictures/trust-ID.svg`. */
  readonly id: 'android' | 'ipad' | 'windows' | 'mac' | 'chromebook' | 'linux';
  readonly title: string;
  /** Found in the browser's own description of itself. */
  readonly agent: RegExp;
  /** One for each field of the picture. */
  readonly steps: readonly [string, string, string, string];
  readonly note: string;
}

export const PLATFORMS: readonly Platform[] = [
  {
    id: 'android',
    title: 'Android tablet or phone',
    agent: /Android/,
    steps: [
      'Load the certificate. It is saved under Downloads; the device may say that it has to be installed in Settings.',
      'Open Settings and search for “CA certificate”, or go to Security & privacy, More security settings, Encryption & credentials.',
      'Tap “Install a certificate”, then “CA certificate”, then “Install anyway”.',
      'Choose “fibula-ca.crt” under Downloads. “CA certificate installed” appears.',
    ],
    note:
      'The device needs a screen lock, and says afterwards that its network may be watched: it says so of every ' +
      'authority that its owner adds. Use Chrome or Edge; Firefox on Android does not take authorities of the device.',
  },
  {
    id: 'ipad',
    title: 'iPad or iPhone',
    agent: /iPad|iPhone/,
    steps: [
      'In Safari, load the certificate and tap “Allow”.',
      'Open Settings, tap “Profile Downloaded” near the top, then “Install”, and enter the device’s passcode.',
      'In Settings, open General, then About, and at the very bottom “Certificate Trust Settings”.',
      'Turn the switch beside “Fibula workshop authority” on, and tap “Continue”.',
    ],
    note: 'Without the last two steps the profile is there and not trusted. A profile that is not installed within some minutes goes away: load it again.',
  },
  {
    id: 'windows',
    title: 'Windows',
    agent: /Windows/,
    steps: [
      'Load the certificate, and open the file “fibula-ca.crt”.',
      'Click “Install Certificate…”, choose “Current User”, then “Next”.',
      'Choose “Place all certificates in the following store”, “Browse…”, and “Trusted Root Certification Authorities”.',
      'Click “Next”, “Finish”, and answer the question with “Yes”. Close the browser and open it again.',
    ],
    note: 'This serves Edge, Chrome, and Firefox of the last years. An older Firefox: as under “Linux, and Firefox anywhere”.',
  },
  {
    id: 'mac',
    title: 'Mac',
    agent: /Macintosh/,
    steps: [
      'Load the certificate, and open the file “fibula-ca.crt”. Keychain Access takes it.',
      'In Keychain Access, find “Fibula workshop authority” and open it with a double click.',
      'Unfold “Trust”, and set “When using this certificate” to “Always Trust”.',
      'Close the window, and confirm with your password or finger.',
    ],
    note: 'This serves Safari, Chrome and Edge. A browser that was open: close it and open it again.',
  },
  {
    id: 'chromebook',
    title: 'Chromebook',
    agent: /CrOS/,
    steps: [
      'Load the certificate. It is in Files, under Downloads.',
      'In the browser’s Settings, open Privacy and security, Security, “Manage certificates”.',
      'Under “Authorities” (or “Installed by you”), choose “Import” and “fibula-ca.crt”.',
      'Tick “Trust this certificate for identifying websites”, and click “OK”.',
    ],
    note: 'On a device that a school or a firm manages, its manager may have to do this.',
  },
  {
    id: 'linux',
    title: 'Linux, and Firefox anywhere',
    agent: /Linux|X11|Firefox/,
    steps: [
      'Load the certificate.',
      'Firefox: Settings, Privacy & Security, Certificates, “View Certificates…”. Chromium: Settings, Privacy and security, Security, “Manage certificates”.',
      'Under “Authorities” (Chromium: “Custom”, “Trusted certificates”), choose “Import…” and “fibula-ca.crt”.',
      'Tick “Trust this CA to identify websites”, and click “OK”.',
    ],
    note: 'Each browser has a list of its own here: do it in the one that the station uses.',
  },
];

/** The platforms, the one that `agent` (a User-Agent header) tells of first. An iPad often says that it is a Mac. */
export function platformsFor(agent: string): readonly Platform[] {
  const firefox = /Firefox/.test(agent) && !/Android|iPad|iPhone/.test(agent) ? 'linux' : undefined;
  const own = PLATFORMS.find((one) => (firefox ? one.id === firefox : one.agent.test(agent)));
  if (!own) return PLATFORMS;
  const near = own.id === 'mac' ? PLATFORMS.filter(({ id }) => id === 'ipad') : [];
  return [own, ...near, ...PLATFORMS.filter((one) => one !== own && !near.includes(one))];
}
