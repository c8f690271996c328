// What a photograph shows, as an address that the page can show: made of the data that the page holds, once for each.
import { followPicture } from '../picture/shown.ts';

const addresses = new Map<string, { line: string; address: string }>();
let known = '';
let lines = new Map<string, string>();

/** The data of a photograph of the open site, base64. */
function lineOf(id: string): string | undefined {
  const data = followPicture();
  if (data !== known) {
    known = data;
    lines = new Map(data.split('\n').slice(1).map((line) => [line.slice(0, line.indexOf(' ')), line]));
    for (const [old, it] of addresses) {
      if (lines.get(old) === it.line) continue;
      URL.revokeObjectURL(it.address);
      addresses.delete(old);
    }
  }
  return lines.get(id);
}

/** The address of a photograph; empty where it is not there. */
export function addressOf(id: string): string {
  const line = lineOf(id);
  if (line === undefined) return '';
  const there = addresses.get(id);
  if (there) return there.address;
  const bytes = Uint8Array.from(atob(line.slice(id.length + 1)), (letter) => letter.charCodeAt(0));
  const address = URL.createObjectURL(new Blob([bytes], { type: 'image/jpeg' }));
  addresses.set(id, { line, address });
  return address;
}
