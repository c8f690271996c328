// Sets the colors of the page before anything of it is painted: as chosen on this device, or as the device is set. It is a
// file of its own and no module, because a browser paints before it runs modules. Later changes: src/state/theme.ts.
(() => {
  const set = (query) => matchMedia(query).matches;
  let theme = null;
  try {
    theme = JSON.parse(localStorage.getItem('colors'));
  } catch {
    // Nothing is remembered, or nothing that can be read.
  }
  if (!['light', 'dark', 'strong', 'sunlight'].includes(theme))
    theme = set('(prefers-contrast: more)') ? 'strong' : set('(prefers-color-scheme: dark)') ? 'dark' : 'light';
  document.documentElement.dataset.theme = theme;
})();
