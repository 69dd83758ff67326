/** What people who mean harm type, and what those who mean none paste; `zq` marks what must never become an element. */
const PIECES: readonly string[] = [
  '<zq>',
  '<zq zq=1>',
  '</zq>',
  '<script>zq()</script>',
  '<ScRiPt src=//zq.example></sCrIpT>',
  '<img src=x onerror=zq()>',
  '<svg/onload=zq()>',
  '<iframe srcdoc="<zq>">',
  '<base href=//zq.example/>',
  '<meta http-equiv=refresh content="0;url=//zq">',
  '<style>*{display:none}</style>',
  '<form action=//zq><input name=zq>',
  '</td></tr></table><zq>',
  '</textarea><zq>',
  '</title><zq>',
  '</script><zq>',
  '</style><zq>',
  '</svg><zq>',
  '</select></option><zq>',
  '<!--',
  '--><zq>',
  '<![CDATA[<zq>]]>',
  '"><zq>',
  "'><zq>",
  '" zq=1 onfocus=zq() autofocus="',
  "' zq=1 onmouseover=zq() '",
  '` zq=1 `',
  ' zq=1 onclick=zq() ',
  'javascript:zq()',
  'JaVa\tScript:zq()',
  'data:text/html,<zq>',
  '//zq.example/',
  '\\u003czq\\u003e',
  '\\x3czq\\x3e',
  '";zq();"',
  "';zq();//",
  // biome-ignore lint/suspicious/noTemplateCurlyInString: it is what is typed
  '${zq()}',
  '{{zq}}',
  '{{{zq}}}',
  '{{#each this}}',
  '<%= zq %>',
  'expression(zq())',
  'url(javascript:zq())',
  '}*{color:red}',
  '&lt;zq&gt;',
  '&#60;zq&#62;',
  '&#x3c;zq&#x3e',
  '&amp;lt;zq',
  '&',
  '%3Czq%3E',
  '%00',
  '+ADw-zq+AD4-',
  '=HYPERLINK("http://zq.example")',
  '=1+1',
  '+1+1',
  '-1+1',
  '@SUM(1)',
  '\t=1+1',
  '"",=1+1,""',
  '\u202ezq\u202c',
  '\u2066\u2067',
  '\u200f\u200b\ufeff',
  '\0<zq>',
  '\x1b[31m',
  '\ud800<zq>',
  '\udc00"',
  '\ud83d\ude2d',
  '\u2028<zq>\u2029',
  '\r\nSet-Cookie: zq=1',
  '\uff1czq\uff1e',
  '\u00bczq\u00be',
  'e\u0301\u0301\u0301\u0301',
  '__proto__',
  'constructor',
  'Möwe',
  '東',
]

/** A text of one to four of them, of at most so many letters. */
export function nastyText(random: () => number, longest: number): string {
  const count = 1 + Math.floor(random() * 4)
  const pieces = Array.from({ length: count }, () => PIECES[Math.floor(random() * PIECES.length)] ?? '')
  return pieces.join('').slice(0, longest)
}

/** 64 KiB of one of them. */
export function hugeText(random: () => number): string {
  const piece = nastyText(random, 40) || '<zq>'
  return piece.repeat(Math.ceil(65_536 / piece.length)).slice(0, 65_536)
}

/** As long, with its blanks where they were, and nothing in it but plain letters. */
export const harmless = (text: string): string => text.replaceAll(/[^\sa-z\d]/gi, 'o')

/** As people may keep it: without the signs that no field takes. */
export const withoutControls = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are meant
  text.replaceAll(/[\0-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffd]/g, '')
