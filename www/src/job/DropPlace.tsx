// A file dropped anywhere on the page is taken by what is in it.
import { useEffect, useState } from 'preact/hooks';
import { phrase } from '../words/words.ts';
import { takeDropped } from './files.ts';

const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

export function DropPlace() {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const stop = new AbortController();
    const { signal } = stop;
    const enter = (event: DragEvent) => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setOver(true);
    };
    window.addEventListener('dragenter', enter, { signal });
    window.addEventListener('dragover', enter, { signal });
    window.addEventListener('dragleave', (event) => event.relatedTarget === null && setOver(false), { signal });
    window.addEventListener(
      'drop',
      (event) => {
        if (!hasFiles(event)) return;
        event.preventDefault();
        setOver(false);
        const file = event.dataTransfer?.files[0];
        if (file) void takeDropped(file);
      },
      { signal },
    );
    return () => stop.abort();
  }, []);
  return over ? <div class="drop-place">{phrase('Drop a site file, a map or a list of points')}</div> : null;
}
