// Catalogues of messages in the form of gettext, read when the page is built: `import words from './es.po'` gives each English text
// with its wording, and of one that counts its wordings, for one and for many.
import { po } from 'gettext-parser';
import type { Plugin } from 'vite';

export type Words = Record<string, string | string[]>;

export function wordsIn(catalogue: string): Words {
  const messages = po.parse(catalogue).translations[''] ?? {};
  const said = Object.values(messages).filter(({ msgid }) => msgid !== '');
  return Object.fromEntries(said.map((it) => [it.msgid, it.msgid_plural ? it.msgstr : (it.msgstr[0] ?? '')]));
}

export const catalogues: Plugin = {
  name: 'catalogues',
  transform: (code, id) => (id.endsWith('.po') ? { code: `export default ${JSON.stringify(wordsIn(code))}`, map: null } : undefined),
};
