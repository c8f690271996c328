import { expect, test } from 'vitest';
import { allowed, codeInScript, dataInScript, escaped } from './escape.ts';

const HOSTILE = '</script><img src=x onerror="alert(1)"> & \'so on\' <!-- \u2028 \u0000';

test('text stays text', () => {
  expect(escaped(HOSTILE)).toBe(
    '&lt;/script&gt;&lt;img src=x onerror=&quot;alert(1)&quot;&gt; &amp; &#39;so on&#39; &lt;!-- \u2028 ',
  );
});

test('data in a script comes back as it was, and holds nothing that ends the script', () => {
  const text = dataInScript({ name: HOSTILE });
  expect(text).not.toMatch(/[<>&\u2028]/);
  expect(JSON.parse(text)).toEqual({ name: HOSTILE });
});

test('a program that speaks of scripts does not end its own, and says the same', () => {
  const code = codeInScript('const it = "</script><!-- </SCRIPT>";\r\n');
  expect(code).not.toMatch(/<\/script|<!--|\r/i);
  expect(new Function(`${code} return it;`)()).toBe('</script><!-- </SCRIPT>');
});

test('the hash is the published one', async () => {
  // The first example of FIPS 180-4 for SHA-256, "abc": ba7816bf 8f01cfea 414140de 5dae2223 b00361a3 96177a9c b410ff61 f20015ad.
  expect(await allowed('abc')).toBe("'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='");
});
