// Text set into a page as text, whatever it says. Everything that comes from a job goes through here. Pure.

const NAMED: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text between tags or within the quotes of an attribute. Controls, which no page may hold, are left out. */
export const escaped = (text: string): string =>
  // oxlint-disable-next-line no-control-regex
  text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g, '').replace(/[&<>"']/g, (it) => NAMED[it] ?? '');

/** A value as JSON that no `<script>` can be ended or commented out by. */
export const dataInScript = (value: unknown): string =>
  JSON.stringify(value).replace(/[<>&\u2028\u2029]/g, (it) => `\\u${it.charCodeAt(0).toString(16).padStart(4, '0')}`);

/** A program's own text that stands in a `<script>`: what would end it or begin a comment there stands only in its strings. */
export const codeInScript = (code: string): string =>
  code.replace(/\r\n?/g, '\n').replace(/<(?=\/script|!--)/gi, '\\x3c').trim();

/** What a content policy calls a text that may stand in the page: its SHA-256 (Content Security Policy 3, `hash-source`). */
export async function allowed(text: string): Promise<string> {
  const subtle = globalThis.crypto.subtle as SubtleCrypto | undefined;
  // Only a page that came over a plain connection from another machine is without it.
  if (!subtle) return "'unsafe-inline'";
  const digest = new Uint8Array(await subtle.digest('SHA-256', new TextEncoder().encode(text)));
  return `'sha256-${btoa(String.fromCharCode(...digest))}'`;
}
