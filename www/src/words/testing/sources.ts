// The sources of the page as trees, for the tests of its words: what is said through the catalogue, and what of the text that a
// person sees or hears is not.
import { parseSync } from 'vite';

interface Node {
  type: string;
  [member: string]: unknown;
}

/** Every file of the page with its text, from `src`, without tests and what is built. */
export const SOURCES: [file: string, text: string][] = Object.entries(
  import.meta.glob<string>(['../../**/*.{ts,tsx}', '!../../**/*.test.ts', '!../../wasm/**', '!../../words/**', '!../../**/*.d.ts'], {
    query: '?raw',
    import: 'default',
    eager: true,
  }),
).map(([path, text]) => [path.replace('../../', ''), text]);

/** What is asked for by its English. */
export interface Asked {
  file: string;
  one: string;
  /** Of what counts: for many. */
  many?: string;
}

const isNode = (it: unknown): it is Node => typeof it === 'object' && it !== null && typeof (it as Node).type === 'string';

function walk(node: Node, over: readonly Node[], visit: (node: Node, over: readonly Node[]) => void): void {
  visit(node, over);
  const inside = [...over, node];
  for (const [key, value] of Object.entries(node)) {
    if (key === 'type') continue;
    for (const it of Array.isArray(value) ? value : [value]) if (isNode(it)) walk(it, inside, visit);
  }
}

const treeOf = (file: string, text: string): Node => {
  const { program, errors } = parseSync(file, text);
  if (errors.length > 0) throw new Error(`${file}: ${errors[0]?.message}`);
  return program as unknown as Node;
};

/** The name that is called, `phrase` of `phrase(..)` as `log` of `console.log(..)`. */
function called(node: Node): string {
  const callee = node['callee'] as Node | undefined;
  const name = callee?.type === 'MemberExpression' ? (callee['property'] as Node) : callee;
  return typeof name?.['name'] === 'string' ? name['name'] : '';
}

/** The texts that an argument may be. */
function texts(node: Node | undefined): string[] {
  if (node?.type === 'Literal' && typeof node['value'] === 'string') return [node['value']];
  if (node?.type === 'ConditionalExpression') return [...texts(node['consequent'] as Node), ...texts(node['alternate'] as Node)];
  if (node?.type === 'LogicalExpression') return [...texts(node['left'] as Node), ...texts(node['right'] as Node)];
  return [];
}

/** Every text that a file has said through the catalogue. */
export function askedIn(file: string, text: string): Asked[] {
  const all: Asked[] = [];
  walk(treeOf(file, text), [], (node) => {
    if (node.type !== 'CallExpression' || (node['callee'] as Node).type !== 'Identifier') return;
    const [first, second, third] = node['arguments'] as Node[];
    const name = called(node);
    if (name === 'count') {
      const [[one], [many]] = [texts(second), texts(third)];
      if (one !== undefined && many !== undefined) all.push({ file, one, many });
    } else if (name === 'phrase' || name === 'english' || name === 'woven') {
      for (const one of texts(first)) all.push({ file, one });
    }
  });
  return all;
}

/** Says its first texts through the catalogue; `heard` takes what the core made. */
const SAYING = /^(phrase|english|woven|count|heard)$/;
/** Takes texts that nobody sees: names of events, parts of the page, what is told to whoever debugs. */
const UNSEEN_BY = new RegExp(
  `^(${[
    'querySelector(All)?|closest|matches|getElementById|createElement(NS)?|setAttribute|getAttribute|addEventListener|removeEventListener',
    'getContext|getExtension|matchMedia|setProperty|remembered|replaceSync|BroadcastChannel|Error|RegExp|Blob|warn|error|log|Set',
    'startsWith|endsWith|includes|replace|replaceAll|split|join|test|append|import|glob|stop|end|lay|later|newest|takeInHand|path',
  ].join('|')})$`,
);
/** Attributes of the page that nobody sees or hears. */
const UNSEEN =
  /^(class|id|d|viewBox|style|type|role|for|href|src|autocomplete|loading|inputMode|name|key|rel|target|transform|accept|measure|part|member|entry|value|kind|spot|side|form|scope|look|preserveAspectRatio|points|aria-(live|controls|describedby|labelledby|orientation|current|hidden|activedescendant)|data-.*)$/;
/** Members of records that nobody sees. */
const UNSEEN_MEMBER = /^(class|className|code|pointer|kind|type|id|href|font|style|value|position|visibility)$/;

const letters = (text: string): boolean => /\p{L}{2}/u.test(text);
/** A sentence, a name with a capital, or two words. */
const reads = (text: string): boolean =>
  letters(text) && (/^[A-Z“‘(¿¡][^A-Z]*\p{Ll}/u.test(text) || /\p{L}{2}[.,:;!?]? .*\p{L}{2}/u.test(text) || /^[,;.] \p{L}/u.test(text));
/** What looks like text and is an address, a path of a picture, a selector, a form of a file. */
const technical = (text: string): boolean =>
  /^(https?:|data:|\.{0,2}\/|[.#[@<(]|M\d|[Mm]-?\d)/.test(text) || /^[\w.+-]+\/[\w.+-]+$/.test(text) || /^[a-z-]+( [a-z]+-[a-z-]+)+$/.test(text);

/** How a literal stands in the tree: whether a person sees it for sure, perhaps, or never. */
function seenAt(node: Node, over: readonly Node[]): 'surely' | 'perhaps' | 'never' {
  let child = node;
  let seen: 'surely' | 'perhaps' = 'perhaps';
  for (const it of [...over].reverse()) {
    if (/^TS(?!As|Satisfies|NonNull)/.test(it.type) || /^(Import|Export(All|Specifier)|TaggedTemplate)/.test(it.type)) return 'never';
    if (it.type === 'CallExpression' || it.type === 'NewExpression') {
      if (SAYING.test(called(it))) return 'never';
      if (it['callee'] !== child && UNSEEN_BY.test(called(it)) && child === node) return 'never';
      if (child !== it['callee']) seen = 'perhaps';
    }
    const direct = child === node || child.type === 'ConditionalExpression';
    if (direct && it.type === 'BinaryExpression' && it['operator'] !== '+') return 'never';
    if (direct && (it.type === 'SwitchCase' || (it.type === 'MemberExpression' && it['property'] === child))) return 'never';
    if (it.type === 'Property') {
      if (it['key'] === child && !it['computed']) return 'never';
      if (UNSEEN_MEMBER.test(String((it['key'] as Node)['name'] ?? ''))) return 'never';
    }
    if (it.type === 'JSXAttribute') {
      const name = (it['name'] as Node)['name'];
      return typeof name === 'string' && (UNSEEN.test(name) || name.startsWith('on')) ? 'never' : seen === 'perhaps' && child !== node && !direct ? 'perhaps' : 'surely';
    }
    if (it.type === 'JSXExpressionContainer' && over[over.indexOf(it) - 1]?.type !== 'JSXAttribute') {
      const between = over.slice(over.indexOf(it) + 1);
      const plain = between.every((one) => one.type === 'ConditionalExpression' || one.type === 'LogicalExpression' || one.type === 'TemplateLiteral');
      return plain ? 'surely' : 'perhaps';
    }
    child = it;
  }
  return seen;
}

/** Text in a file that a person sees or hears, and that is not said through the catalogue. */
export function bareIn(file: string, text: string): string[] {
  const found: string[] = [];
  walk(treeOf(file, text), [], (node, over) => {
    if (node.type === 'JSXText') {
      const words = String(node['value']).trim();
      if (letters(words)) found.push(words.replace(/\s+/g, ' '));
      return;
    }
    const literal = node.type === 'Literal' && typeof node['value'] === 'string' ? node['value'] : undefined;
    const parts = node.type === 'TemplateLiteral' ? (node['quasis'] as { value: { cooked: string } }[]).map((it) => it.value.cooked) : undefined;
    const words = literal ?? parts?.join('…');
    if (words === undefined || !letters(words) || technical(words)) return;
    const seen = seenAt(node, over);
    if (seen === 'never') return;
    if (seen === 'surely' ? letters(words) : reads(words)) found.push(words);
  });
  return found;
}
