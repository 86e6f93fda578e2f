// Before the first paint: the light that was chosen, by the address or earlier on this device.
(() => {
  const known = ['auto', 'light', 'dark', 'red'];
  const asked = new URLSearchParams(location.search).get('light');
  let light = 'auto';
  try {
    if (known.includes(asked)) localStorage.setItem('light', asked);
    light = localStorage.getItem('light') ?? 'auto';
  } catch {
    light = asked ?? 'auto';
  }
  document.documentElement.dataset.light = known.includes(light) ? light : 'auto';
})();
