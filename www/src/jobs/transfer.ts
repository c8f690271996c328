// All jobs as one file, and back: what is in it, what of it can be read, and what is wrong with the rest. Pure; whether a
// site in it is whole is the planner's to say.
import type { Finding } from '../core/types.ts';
import { english, phrase } from '../words/words.ts';
import { keysIn } from './images.ts';
import { FORMAT } from './together.ts';
import { STATUSES, type Status } from './model.ts';

export const FORMAT_VERSION = 1;

/** A state of a job in the file: a site file, and the keys of its images' data, one behind the other (see `images.ts`). */
export interface State {
  site: Record<string, unknown>;
  picture: string;
}

export interface FileVersion extends State {
  name: string;
  at: number;
}

export interface FileJob extends State {
  id: string;
  place: string;
  status: Status;
  archived: boolean;
  created: number;
  changed: number;
  versions: FileVersion[];
}

export interface JobsFile {
  jobs: FileJob[];
  /** Data of pictures, base64, by their keys. */
  pictures: Record<string, string>;
}

const date = (time: number): string => new Date(time).toISOString();

/** The file's text. The same jobs at the same time give the same text. */
export function packed({ jobs, pictures }: JobsFile, now: number): string {
  const state = ({ site, picture }: State) => ({ ...(picture !== '' && { picture }), site });
  const text = JSON.stringify(
    {
      format: FORMAT,
      version: FORMAT_VERSION,
      written: date(now),
      jobs: jobs.map((job) => ({
        id: job.id,
        place: job.place,
        status: job.status,
        archived: job.archived,
        created: date(job.created),
        changed: date(job.changed),
        ...state(job),
        versions: job.versions.map((it) => ({ name: it.name, at: date(it.at), ...state(it) })),
      })),
      pictures,
    },
    null,
    1,
  );
  return `${text}\n`;
}

export function fault(code: string, pointer: string, message: string, remedy: string): Finding {
  return { severity: 'fault', code, pointer, topic: 'clearances', scope: 'site', at: null, message, remedy };
}

const caution = (code: string, pointer: string, message: string, remedy: string): Finding => ({
  ...fault(code, pointer, message, remedy),
  severity: 'caution',
});

/** What of a text can be read as jobs, and what is wrong with it. */
export function unpacked(text: string): { file: JobsFile; findings: Finding[] } {
  const reader = new Reader();
  const file = reader.file(text);
  return { file: file ?? { jobs: [], pictures: {} }, findings: reader.findings };
}

type Members = Record<string, unknown>;

const isObject = (it: unknown): it is Members => typeof it === 'object' && it !== null && !Array.isArray(it);

const SAVED_HERE = english('Bring in a file that “Save all jobs to a file” wrote.');

class Reader {
  readonly findings: Finding[] = [];

  file(text: string): JobsFile | undefined {
    let read: unknown;
    try {
      read = JSON.parse(text);
    } catch (error) {
      const why = error instanceof Error ? error.message : '';
      return this.refuse('syntax', '', phrase('The file of jobs breaks off or is not JSON: {why}', { why }), phrase('Save it once more where it came from, and copy it whole.'));
    }
    if (!isObject(read) || read['format'] !== FORMAT) {
      return this.refuse('format', '/format', phrase('This is no file of jobs.'), phrase(SAVED_HERE));
    }
    const version = read['version'];
    if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
      return this.refuse('version', '/version', phrase('The version of the file is no whole number from 1.'), phrase(SAVED_HERE));
    }
    if (version > FORMAT_VERSION) {
      return this.refuse(
        'version',
        '/version',
        phrase('The file is of version {version}; this planner reads up to {newest}.', { version, newest: FORMAT_VERSION }),
        phrase('Reload the page to get the newer planner, then bring it in again.'),
      );
    }
    if (!Array.isArray(read['jobs'])) return this.refuse('member', '/jobs', phrase('The file has no list of jobs.'), phrase(SAVED_HERE));
    const pictures = this.pictures(read['pictures']);
    const jobs = (read['jobs'] as unknown[]).flatMap((it, index) => this.job(it, `/jobs/${index}`, pictures) ?? []);
    return { jobs, pictures };
  }

  private refuse(code: string, pointer: string, message: string, remedy: string): undefined {
    this.findings.push(fault(code, pointer, message, remedy));
    return undefined;
  }

  private pictures(it: unknown): Record<string, string> {
    if (it === undefined) return {};
    const entries = isObject(it) ? Object.entries(it) : [];
    if (!isObject(it) || entries.some(([, data]) => typeof data !== 'string')) {
      this.refuse('member', '/pictures', phrase('The pictures are not texts by their keys.'), phrase('Jobs with a picture cannot be brought in from this file.'));
    }
    return Object.fromEntries(entries.filter((entry): entry is [string, string] => typeof entry[1] === 'string'));
  }

  private job(it: unknown, at: string, pictures: Record<string, string>): FileJob | undefined {
    if (!isObject(it)) return this.refuse('member', at, phrase('This is no job.'), phrase('It is left out; the others come in.'));
    const state = this.state(it, at, pictures);
    if (!state) return undefined;
    const changed = this.time(it['changed'], `${at}/changed`);
    const versions = it['versions'] === undefined ? [] : it['versions'];
    if (!Array.isArray(versions)) this.refuse('member', `${at}/versions`, phrase('The versions are no list.'), phrase('They are left out; the job comes in.'));
    return {
      ...state,
      id: typeof it['id'] === 'string' ? it['id'] : '',
      place: typeof it['place'] === 'string' ? it['place'] : '',
      status: this.status(it['status'], `${at}/status`),
      archived: it['archived'] === true,
      created: it['created'] === undefined ? changed : this.time(it['created'], `${at}/created`),
      changed,
      versions: (Array.isArray(versions) ? versions : []).flatMap((one: unknown, index) => {
        const place = `${at}/versions/${index}`;
        const old = isObject(one) ? this.state(one, place, pictures) : this.refuse('member', place, phrase('This is no version.'), phrase('It is left out.'));
        if (!old || !isObject(one)) return [];
        return { ...old, name: typeof one['name'] === 'string' ? one['name'] : '', at: this.time(one['at'], `${place}/at`) };
      }),
    };
  }

  private state(it: Members, at: string, pictures: Record<string, string>): State | undefined {
    const { site, picture = '' } = it;
    if (!isObject(site)) return this.refuse('member', `${at}/site`, phrase('There is no site in it.'), phrase('It is left out; the others come in.'));
    if (typeof picture !== 'string' || keysIn(picture).some((key) => pictures[key] === undefined)) {
      return this.refuse('member', `${at}/picture`, phrase('Its picture is not in the file.'), phrase('Save the jobs once more where they came from.'));
    }
    return { site, picture };
  }

  private status(it: unknown, at: string): Status {
    const known = STATUSES.find((status) => status === it);
    if (it !== undefined && !known) {
      this.findings.push(caution('member', at, phrase('The status “{status}” is not known here.', { status: String(it) }), phrase('The job comes in as sketched; set its status in the list.')));
    }
    return known ?? 'sketched';
  }

  private time(it: unknown, at: string): number {
    const time = typeof it === 'string' ? Date.parse(it) : Number.NaN;
    if (Number.isFinite(time)) return time;
    this.findings.push(caution('member', at, phrase('This is no date.'), phrase('The beginning of 1970 stands in its place.')));
    return 0;
  }
}
