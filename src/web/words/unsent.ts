const count = (many: number, one: string, more: string) => (many === 1 ? `1 ${one}` : `${many} ${more}`);
const sheetsAndPhotos = (sheets: number, photos: number) =>
  [sheets > 0 ? count(sheets, 'sheet', 'sheets') : '', photos > 0 ? count(photos, 'photograph', 'photographs') : ''].filter(Boolean).join(' and ');

/** What lies on this device and is not yet sent: said on every page. */
export const unsentWords = {
  line: (sheets: number, photos: number) => `${sheetsAndPhotos(sheets, photos)} not yet sent.`,
  of: (name: string, sheets: number, photos: number) =>
    `${sheetsAndPhotos(sheets, photos)} of ${name} not yet sent: they go out when ${name} signs in on this device.`,
  signIn: (name: string) => `Sign in as ${name} to send them.`,
  refused: 'One of them was not taken and needs a change.',
  sending: 'Sending…',
  full: 'This device has no room left: what is typed now is not kept. Send what waits, or make room, before this page is closed.',
  off: 'This device keeps nothing: its browser has storage switched off. What is typed is lost when the page is closed.',
  photoLost: 'The device no longer has this photograph.',
} as const;
