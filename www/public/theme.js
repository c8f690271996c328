// Sets the colors and the language of the page before anything of it is painted: as chosen on this device, or as the device is
// set. It is a file of its own and no module, because a browser paints before it runs modules. Later changes: src/state/theme.ts
// and src/words/language.ts.
(() => {
  const set = (query) => matchMedia(query).matches;
  const remembered = (name) => {
    try {
      return JSON.parse(localStorage.getItem(name));
    } catch {
      return null; // Nothing is remembered, or nothing that can be read.
    }
  };
  let theme = remembered('colors');
  if (!['light', 'dark', 'strong', 'sunlight'].includes(theme))
    theme = set('(prefers-contrast: more)') ? 'strong' : set('(prefers-color-scheme: dark)') ? 'dark' : 'light';
  document.documentElement.dataset.theme = theme;
  const spoken = navigator.languages.map((it) => it.slice(0, 2).toLowerCase()).find((it) => it === 'en' || it === 'es');
  const language = remembered('language');
  document.documentElement.lang = language === 'en' || language === 'es' ? language : (spoken ?? 'en');
})();
