// The demo sites, which lie beside the page.

export interface DemoSite {
  file: string;
  name: string;
  note: string;
  text: string;
}

async function get(file: string): Promise<Response> {
  const answer = await fetch(`./demo-sites/${file}`);
  if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
  return answer;
}

/** All of them, with their text. */
export async function loadDemoSites(): Promise<DemoSite[]> {
  const index = (await (await get('index.json')).json()) as { file: string; name: string }[];
  return Promise.all(
    index.map(async ({ file, name }) => {
      const text = await (await get(file)).text();
      const { note = '' } = JSON.parse(text) as { note?: string };
      return { file, name, note, text };
    }),
  );
}
