// Before the first paint: the light and the language that were chosen, by the address or earlier on this device.
(() => {
  const choose = (name, known, usual) => {
    const asked = new URLSearchParams(location.search).get(name);
    try {
      if (known.includes(asked)) localStorage.setItem(name, asked);
      const kept = localStorage.getItem(name);
      return known.includes(kept) ? kept : usual;
    } catch {
      return known.includes(asked) ? asked : usual;
    }
  };
  const root = document.documentElement, languages = ['en', 'es'];
  root.dataset.light = choose('light', ['auto', 'light', 'dark', 'red'], 'auto');
  root.lang = choose('language', languages, (navigator.languages ?? []).map(each => each.slice(0, 2)).find(each => languages.includes(each)) ?? 'en');
  // The words are wanted as soon as the modules are there, and only those of this language.
  document.head.append(Object.assign(document.createElement('link'), { rel: 'modulepreload', href: `/static/texts-${root.lang}.js` }));
})();
