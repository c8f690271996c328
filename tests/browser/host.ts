// A server that sends the page's files below a path and nothing else, as any static host does.
import { createReadStream, existsSync, readFileSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';

const FOLDER = fileURLToPath(new URL('../../www/dist/', import.meta.url));
const BELOW = '/yards/plans/';

/** What any file server knows of the endings here. */
const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.wasm': 'application/wasm',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
};

/** What is sent in place of a file: another text, nothing more of it, or the file as it is. */
export type Change = (path: string, text: () => string) => string | 'broken off' | undefined;

/** Sends the files of the page's folder, with their type and no other header. */
export function host(change: Change = () => undefined): Promise<Server> {
  const server = createServer((request, answer) => {
    const path = decodeURIComponent(new URL(request.url ?? '', 'http://it').pathname);
    const inside = normalize(path.slice(BELOW.length) || 'index.html');
    const file = join(FOLDER, inside);
    if (!path.startsWith(BELOW) || inside.startsWith('..') || !existsSync(file) || !statSync(file).isFile()) {
      answer.writeHead(404).end();
      return;
    }
    const changed = change(inside, () => readFileSync(file, 'utf8'));
    const head = { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' };
    if (changed === 'broken off') {
      answer.writeHead(200, { ...head, 'content-length': '100000' });
      answer.write('half of it', () => request.socket.destroy());
    } else if (changed !== undefined) {
      answer.writeHead(200, head).end(changed);
    } else {
      answer.writeHead(200, head);
      createReadStream(file).pipe(answer);
    }
  });
  return new Promise((done) => server.listen(0, '127.0.0.1', () => done(server)));
}

/** Where the page is on it. */
export const addressOf = (server: Server): string => `http://127.0.0.1:${(server.address() as AddressInfo).port}${BELOW}`;
