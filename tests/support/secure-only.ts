import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

/** What browsers offer to secure contexts alone, or refuse to work elsewhere, by what it hangs on. */
export const SECURE_ONLY: Readonly<Record<'navigator' | 'crypto' | 'window', readonly string[]>> = {
  navigator: [
    'serviceWorker',
    'clipboard',
    'wakeLock',
    'geolocation',
    'mediaDevices',
    'getUserMedia',
    'storage',
    'share',
    'canShare',
    'locks',
    'credentials',
    'bluetooth',
    'usb',
    'serial',
    'hid',
    'keyboard',
    'getBattery',
    'requestMIDIAccess',
    'setAppBadge',
    'gpu',
    'xr',
  ],
  crypto: ['subtle', 'randomUUID'],
  window: [
    'caches',
    'Notification',
    'PushManager',
    'PaymentRequest',
    'cookieStore',
    'showOpenFilePicker',
    'showSaveFilePicker',
    'queryLocalFonts',
    'AudioWorklet',
    'DeviceOrientationEvent',
    'DeviceMotionEvent',
  ],
}

/** Where a script names one of them, comments left out. */
export function secureOnlyIn(script: string): readonly string[] {
  const code = script.replaceAll(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$|\s\/\/ .*$/gm, '')
  const { navigator, crypto, window } = SECURE_ONLY
  return [
    ...navigator.filter((name) => new RegExp(`navigator\\W{1,4}${name}\\b`).test(code)),
    ...[...crypto, ...window].filter((name) => new RegExp(`\\b${name}\\b`).test(code)),
  ]
}

const VIEWS = join(import.meta.dirname, '../../views')

/** Every script and template that pages are made of, as [file, text]. */
export const viewFiles = (): readonly (readonly [file: string, text: string])[] =>
  readdirSync(VIEWS, { recursive: true, encoding: 'utf8' })
    .filter((file) => /^scripts\/.*\.ts$|\.hbs$/.test(file))
    .map((file) => [file, readFileSync(join(VIEWS, file), 'utf8')] as const)
