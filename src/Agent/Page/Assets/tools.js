const kept = (name, usual) => { try { return localStorage.getItem(name) ?? usual; } catch { return usual; } };
export const keep = (name, value) => { try { localStorage.setItem(name, value); } catch { /* a device that keeps nothing */ } };

const root = document.documentElement;
export const settings = { language: root.lang, mass: kept('mass', 'g'), temperature: kept('temperature', 'C'), light: root.dataset.light };

let texts = {};
/** Takes the words of another language. */
export async function speak(language) {
  texts = (await import(`./texts-${language}.js`)).default;
  settings.language = root.lang = language;
}
await speak(settings.language);

export const t = (key, ...values) => values.reduce((all, value, i) => all.replaceAll(`{${i}}`, value), texts[key] ?? key);
export const known = key => key in texts;
const kindOf = (group, kind) => t(known(`${group}-${kind}`) ? `${group}-${kind}` : `${group}-other`);

/** The agent's own words are English: marked as such for who hears the page in another language. */
export const english = text => el('span', { lang: 'en' }, text);

/** Why a device is not connected. */
export const causeOf = item => settings.language === 'en' || !known(`cause-${item.cause}`) ? english(item.detail) : t(`cause-${item.cause}`);

/** An alert in the language of the page: the chick or device, what it is, and the weight if it is about one. */
export const alertText = alert => [alert.chick ?? alert.device, kindOf('alert', alert.alert).replace('{grams}', alert.grams === null ? '' : shown(alert.grams)).trim()].filter(Boolean).join(': ');
export const findingText = finding => [finding.chick, kindOf('finding', finding.finding)].filter(Boolean).join(': ');
/** What else there is to say of it: in English the agent's own words, else the numbers. */
export const details = told => settings.language === 'en' ? told.text
  : told.expectedGrams === undefined || told.expectedGrams === null || told.grams === null ? null
    : t('finding-numbers', shown(told.grams), shown(told.expectedGrams), shown(told.lowGrams), shown(told.highGrams));

/** An element: attributes, on… for handlers, then children; never markup from text. */
export function el(tag, attributes = {}, ...children) {
  const svg = ['svg', 'path', 'line', 'text', 'circle', 'polyline', 'polygon', 'g', 'title'].includes(tag);
  const node = svg ? document.createElementNS('http://www.w3.org/2000/svg', tag) : document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...children.flat(Infinity).filter(child => child !== null && child !== undefined && child !== false));
  return node;
}

const number = (value, least, most = least) => value.toLocaleString(settings.language, { minimumFractionDigits: least, maximumFractionDigits: most, useGrouping: false });
const ouncesOf = grams => grams / 28.349523125;

/** Digits of a weight and its unit, apart. */
export const mass = grams => settings.mass === 'oz' ? [number(ouncesOf(grams), 3), 'oz'] : [number(grams, 1), 'g'];
export const shown = grams => grams === null || grams === undefined ? '–' : mass(grams).join(' ');
export const change = grams => grams === null || grams === undefined ? '–' : (grams > 0 ? '+' : grams < 0 ? '−' : '±') + mass(Math.abs(grams)).join(' ');
export const spread = grams => grams === null || grams === undefined ? '' : `± ${settings.mass === 'oz' ? number(ouncesOf(grams), 4) + ' oz' : number(grams, 2) + ' g'}`;
export const percent = value => value === null || value === undefined ? '–' : `${value > 0 ? '+' : value < 0 ? '−' : '±'}${number(Math.abs(value), 1)} %`;
export const warmth = celsius => celsius === null || celsius === undefined ? '–' : settings.temperature === 'F' ? `${number(celsius * 9 / 5 + 32, 1)} °F` : `${number(celsius, 1)} °C`;
export const time = at => at ? new Date(at).toLocaleTimeString(settings.language, { hour: '2-digit', minute: '2-digit', hour12: false }) : '–';
export const moment = at => at ? `${at.slice(0, 10)} ${time(at)}` : '–';
export const reasons = list => (list ?? []).map(reason => known(`reason-${reason}`) ? t(`reason-${reason}`) : reason).join(', ');

/** A problem in the language of the page: in English the station's own words, which say more. */
const problemText = problem => {
  const kind = `problem-${problem.type?.split(':').pop()}`;
  return settings.language === 'en' && problem.detail || t(known(kind) ? kind : 'failed');
};

/** @throws Error with what the station says is wrong */
export async function api(path, options = {}) {
  const { json, headers, ...rest } = options;
  const answer = await fetch(`/api/v1/${path}`, { cache: 'no-cache', ...rest,
    headers: json === undefined ? headers : { 'Content-Type': 'application/json', ...headers }, body: json === undefined ? rest.body : JSON.stringify(json) });
  if (answer.ok) return answer.headers.get('Content-Type')?.startsWith('application/json') ? Object.assign(await answer.json(), { tag: answer.headers.get('ETag') }) : answer.blob();
  const problem = await answer.json().catch(() => ({}));
  throw Object.assign(new Error([problemText(problem), ...(problem.faults ?? [])].join(' · ')), { status: answer.status });
}

/** A table of cells; a row may be a list of cells or { cells, className }. */
export const table = (caption, heads, rows) => el('div', { class: 'wide', tabindex: 0, role: 'region', 'aria-label': caption }, el('table', { role: 'table' },
  el('thead', { role: 'rowgroup' }, el('tr', { role: 'row' }, heads.map(head => el('th', { scope: 'col', role: 'columnheader', class: head.n ? 'n' : null }, head.text ?? head)))),
  el('tbody', { role: 'rowgroup' }, rows.map(row => el('tr', { role: 'row', class: row.className }, (row.cells ?? row).map((cell, i) =>
    // On a narrow screen a row is a card: each cell then carries its heading, and those that say nothing are left out.
    el('td', { role: 'cell', class: [heads[i].n ? 'n' : '', cell === '–' || cell === '' ? 'none' : ''].join(' ').trim() || null, 'data-head': heads[i].text ?? heads[i] }, Array.isArray(cell) ? el('div', {}, cell) : cell)))))));

/** Asks in a dialog; fields are { name, label, type, value, required }. Resolves with the values, or null. */
export function ask(title, fields, act) {
  return new Promise(resolve => {
    const form = el('form', { method: 'dialog' }, el('h2', {}, title),
      fields.map(({ label, ...field }) => el('label', {}, label, el('input', { autocomplete: 'off', ...field }))),
      el('div', { class: 'acts' }, el('button', { class: 'chief', value: 'yes' }, act), el('button', { value: 'no', formnovalidate: true }, t('leave'))));
    const box = el('dialog', { 'aria-label': title }, form);
    box.addEventListener('close', () => {
      resolve(box.returnValue === 'yes' ? Object.fromEntries(new FormData(form)) : null);
      box.remove();
    });
    document.body.append(box);
    box.showModal();
  });
}

/** Lets the browser keep a file that the station made. */
export async function download(path, name) {
  const address = URL.createObjectURL(await api(path));
  const link = el('a', { href: address, download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
