// The module that makes reports. It works from a site's text, as the command line does.
import glueUrl from '../wasm/batterboard_report.js?url';
import wasmUrl from '../wasm/batterboard_report_bg.wasm?url';
import { livingModule } from './engine.ts';
import { ask } from './planner.ts';

interface Reports {
  report_text(site: string): string;
  report_json(site: string): string;
  takeoff_list(site: string): string;
}

const reports = livingModule<Reports>('report', glueUrl, wasmUrl);

/** The report on the open site, to read or as data; or its takeoff as a list for a spreadsheet. */
export async function report(how: 'text' | 'json' | 'list'): Promise<string> {
  const made = await reports();
  const site = ask((p) => p.save(), '');
  if (how === 'list') return made.takeoff_list(site);
  return how === 'text' ? made.report_text(site) : made.report_json(site);
}
