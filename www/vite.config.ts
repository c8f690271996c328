// How the page is built: one folder of static files that any static server can serve, and a service
// worker that keeps all of it on the device.
import { build, defineConfig, minify, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { catalogues } from './words.plugin.ts';

// The server sends the same policy; the page carries its own for servers that send none. Only in the
// built page: the development server injects styles, which this forbids.
const POLICY =
  "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; " +
  "connect-src 'self'; worker-src 'self'; object-src 'none'; base-uri 'none'";

const contentPolicy: Plugin = {
  name: 'content-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
      injectTo: 'head-prepend',
    },
  ],
};

/** The module's bindings are fetched by their address, and so no bundler has them in hand: their comments and long names
    stay out of what a visitor waits for. */
const smallBindings: Plugin = {
  name: 'small-bindings',
  apply: 'build',
  async generateBundle(_, bundle) {
    for (const file of Object.values(bundle)) {
      if (file.type !== 'asset' || !file.fileName.endsWith('.js')) continue;
      const { code, errors } = await minify(file.fileName, String(file.source), { module: true });
      if (errors.length > 0) this.error(`${file.fileName} cannot be minified: ${errors[0]?.message}`);
      file.source = code;
    }
  },
};

const ONE_SCRIPT = '?one-script';

/** `import address from './some.ts?one-script'`: that module with all it imports as one plain script in a file of its own, for a
    page that is saved and has no other files. The worker that keeps the page offline keeps it too. */
const oneScript = (): Plugin => {
  let built = false;
  return {
    name: 'one-script',
    enforce: 'pre',
    configResolved: ({ command }) => void (built = command === 'build'),
    async resolveId(id, importer) {
      if (!id.endsWith(ONE_SCRIPT)) return undefined;
      const found = await this.resolve(id.slice(0, -ONE_SCRIPT.length), importer);
      return found && `\0${found.id}${ONE_SCRIPT}`;
    },
    async load(id) {
      if (!id.endsWith(ONE_SCRIPT)) return undefined;
      const entry = id.slice(1, -ONE_SCRIPT.length);
      const lib = { entry, formats: ['iife' as const], name: 'saved', fileName: 'saved' };
      const made = await build({ configFile: false, logLevel: 'warn', build: { write: false, target: 'es2022', lib } });
      const [output] = [made].flat();
      const code = output && 'output' in output ? output.output[0].code : this.error(`${entry} makes no script`);
      if (!built) return `export default ${JSON.stringify(`data:text/javascript;base64,${Buffer.from(code).toString('base64')}`)}`;
      const file = this.emitFile({ type: 'asset', name: 'space-turned.js', source: code });
      return `export default import.meta.ROLLUP_FILE_URL_${file}`;
    },
  };
};

// Nothing leaves the device: with every file goes what lets the page talk to its own origin only.
const HEADERS = {
  'Content-Security-Policy': `${POLICY}; frame-ancestors 'none'`,
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'X-Frame-Options': 'DENY',
};

/** What is fetched when it is first wanted lies in a folder of its own: parts that the page imports later, and the press with
    its module. */
const LATER = /paper|[Ss]pace|three|Sheets|press|OFL|WayIn|fit|bring|[Ss]takes|[Ss]hown|[Ss]ources|SunPart|DayField|OriginField|Photos|pins|^sun\.css/;
const folder = (name: string | undefined, later = false): string =>
  (later && !name?.startsWith('workbox')) || LATER.test(name ?? '') ? 'later' : 'assets';
/** What several of those parts share is named after one of its modules only. */
const SHARED_LATER = /node_modules\/three\/|src\/space\/|src\/paper\/wish|src\/picture\/shrink|src\/photos\/(add|data|edits|pins|spread|words)|src\/steps\/yard\/FeatureCard|src\/sun\/(?!open)|src\/core\/lists|src\/plan\/overlay/;
const FILES = {
  chunkFileNames: (chunk: { name: string; isDynamicEntry: boolean; moduleIds: string[] }) =>
    `${folder(chunk.name, chunk.isDynamicEntry || chunk.moduleIds.some((id) => SHARED_LATER.test(id)))}/[name]-[hash].js`,
  entryFileNames: (chunk: { name: string }) => `${folder(chunk.name)}/[name]-[hash].js`,
  assetFileNames: (asset: { names: string[] }) => `${folder(asset.names[0])}/[name]-[hash][extname]`,
};

export default defineConfig({
  // A file that is missing is missing: no page stands in for it.
  appType: 'mpa',
  preview: { host: '127.0.0.1', port: 8642, headers: HEADERS },
  worker: { format: 'es', rolldownOptions: { output: FILES } },
  base: './',
  build: {
    target: 'es2023',
    // Nothing inlined: the policy allows scripts, styles and wasm from files only.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: { output: FILES },
  },
  plugins: [
    contentPolicy,
    catalogues,
    oneScript(),
    smallBindings,
    VitePWA({
      registerType: 'prompt',
      injectRegister: null,
      workbox: {
        // A quick build's module is several times a finished one, whose weight has a bound of its own.
        maximumFileSizeToCacheInBytes: 16 * 1024 * 1024,
        globPatterns: ['**/*.{html,js,css,wasm,json,svg,txt,webmanifest}'],
        // `life` counts restarts of the wasm module, `bench` is the benchmark's switch.
        ignoreURLParametersMatching: [/^life$/, /^bench$/],
      },
      manifest: {
        name: 'batterboard',
        short_name: 'batterboard',
        description: 'Site layout and excavation planner for one-piece pool shells',
        display: 'standalone',
        start_url: './',
        background_color: '#f4efe2',
        theme_color: '#1c2b35',
        icons: [{ src: 'icon.svg', sizes: 'any', type: 'image/svg+xml' }],
      },
    }),
  ],
});
