import { el, t, api, moment, time, table, known, settings, causeOf, download } from './tools.js';
import { blankToNull } from './chick.js';

const told = (say, work) => event => { event?.preventDefault(); say.textContent = ''; work(event).catch(problem => { say.className = 'said bad'; say.textContent = problem.message; }); };
const done = (say, text) => { say.className = 'said good'; say.textContent = text; };

export const instruments = {
  title: 'instruments',
  async load(me, redraw) {
    const { items } = await api('instruments');
    const say = el('p', { class: 'said', role: 'alert' });
    return [
      el('h1', {}, t('instruments')), say,
      items.length === 0 ? el('p', {}, t('no-instruments')) : table(t('instruments'), [t('instrument'), t('state'), t('heard'), t('checks')], items.map(item => [
        [el('strong', {}, item.device), el('div', {}, `${known(`role-${item.role}`) ? t(`role-${item.role}`) : item.role}, ${item.dialect}`), item.connection ? el('code', {}, item.connection) : null],
        el('span', { class: item.state === 'up' ? 'good' : item.state === 'unknown' ? null : 'bad' }, [item.state === 'up' ? '✓ ' : item.state === 'unknown' ? '○ ' : '✕ ', t(`device-${item.state}`), item.since ? `, ${time(item.since)}` : '', item.detail ? el('div', {}, causeOf(item)) : null]),
        item.heardAt ? [time(item.heardAt), el('div', {}, el('code', {}, item.lastWords))] : '–',
        item.checks.length === 0 ? '–' : el('ul', {}, item.checks.map(check => el('li', { class: check.ok ? 'good' : 'bad' }, `${check.ok ? '✓' : '✕'} ${moment(check.at)}: ${check.grams} g (${check.expectedGrams} g, ${check.errorGrams > 0 ? '+' : ''}${check.errorGrams} g)`))),
      ])),
      me.role === 'keeper' ? await paired(say, redraw) : null,
    ];
  },
};

async function paired(say, redraw) {
  const { items } = await api('paired');
  const shown = el('p', { class: 'pairing' });
  const show = role => told(say, async () => {
    const code = await api('pairing/codes', { method: 'POST', json: { role } });
    shown.textContent = code.code;
    done(say, t('code-until', time(code.expiresAt)));
  });
  const open = items.filter(item => !item.endedAt);
  return el('section', { 'aria-label': t('pairing') }, el('h2', {}, t('pairing')), el('p', {}, t('pairing-help')),
    el('div', { class: 'acts' }, el('button', { type: 'button', onclick: show('keeper') }, t('code-keeper')), el('button', { type: 'button', onclick: show('look') }, t('code-look'))), shown,
    open.length === 0 ? null : table(t('pairing'), [t('name'), t('role'), t('since'), ''], open.map(item => [item.name, t(`may-${item.role}`), moment(item.at),
      el('button', { type: 'button', 'aria-label': `${t('end')}: ${item.name}`, onclick: told(say, async () => { await api(`paired/${item.id}`, { method: 'DELETE' }); redraw(); }) }, t('end'))])));
}

/** Opened when it is wanted: the list is what most come for. */
const folded = (title, form) => el('details', {}, el('summary', {}, t(title)), form);

export const register = {
  title: 'register',
  async load(me, redraw) {
    const chicks = [];
    for (let cursor = ''; cursor !== null;) {
      const page = await api(`chicks?limit=500${cursor && `&cursor=${cursor}`}`);
      chicks.push(...page.items);
      cursor = page.next;
    }
    const say = el('p', { class: 'said', role: 'alert' });
    const field = (name, more = {}) => el('label', {}, t(name), el('input', { name, autocomplete: 'off', maxlength: 200, ...more }));
    const add = el('form', {}, el('div', { class: 'fields' },
      field('code', { required: true, maxlength: 24 }), field('species'), field('hatched', { type: 'date' }), field('clutch'), field('brooder'), field('band'), field('note'), el('button', { class: 'chief' }, t('add'))));
    add.addEventListener('submit', told(say, async () => {
      const chick = blankToNull(Object.fromEntries(new FormData(add)));
      const { adopted } = await api('chicks', { method: 'POST', json: chick });
      await redraw();
      done(document.querySelector('main .said'), t('added', chick.code, adopted));
    }));
    const file = el('input', { type: 'file', accept: '.csv,text/csv', required: true });
    const skip = el('input', { type: 'checkbox' });
    const load = el('form', {}, el('p', {}, t('import-help')), el('div', { class: 'fields' }, el('label', {}, t('file'), file), el('label', {}, skip, ' ', t('skip-bad')), el('button', {}, t('import-act'))));
    load.addEventListener('submit', told(say, async () => {
      const result = await api(`register${skip.checked ? '?skipBad=true' : ''}`, { method: 'POST', headers: { 'Content-Type': 'text/csv' }, body: file.files[0] });
      await redraw();
      done(document.querySelector('main .said'), t('imported', result.added, result.updated, result.unchanged));
    }));
    return [
      el('h1', {}, t('register')), say, me.role === 'keeper' ? [folded('add-chick', add), folded('import', load), folded('labels', await printing(say))] : null,
      el('h2', {}, t('chicks', chicks.length)),
      chicks.length === 0 ? el('p', {}, t('no-chicks')) : table(t('register'), [t('code'), t('species'), t('hatched'), t('clutch'), t('brooder'), t('band'), t('left'), t('note')],
        chicks.map(chick => [el('a', { href: `/chick/${encodeURIComponent(chick.code)}` }, chick.code), chick.species ?? '–', chick.hatched ?? '–', chick.clutch ?? '–', chick.brooder ?? '–', chick.band ?? '–', chick.left ?? '–', chick.note ?? '–'])),
    ];
  },
};

/** Cards as a PDF. */
async function printing(say) {
  const { items, usual } = await api('labels/sheets');
  const tick = (name, on) => el('label', { class: 'tick' }, el('input', { type: 'checkbox', name, value: 'true', checked: on }), ' ', t(`labels-${name}`));
  const form = el('form', {}, el('p', {}, t('labels-help')), el('div', { class: 'acts' }, tick('all', true), tick('brooders', false), tick('cards', false)), el('div', { class: 'fields' },
    el('label', {}, t('sheet'), el('select', { name: 'sheet' }, items.map(name => el('option', { selected: name === usual }, name)))),
    el('label', {}, t('skip-labels'), el('input', { type: 'number', name: 'skip', min: 0, value: 0 })), el('button', {}, t('labels-act'))));
  form.addEventListener('submit', told(say, () => download(`labels?${new URLSearchParams([...new FormData(form), ['language', settings.language]])}`, 'labels.pdf')));
  return form;
}

/** For a device that is not paired yet. */
export function pairForm(paired) {
  const say = el('p', { class: 'said', role: 'alert' });
  const form = el('form', {}, el('h1', {}, t('pair-title')), el('p', {}, t('pair-help')), say, el('div', { class: 'fields' },
    el('label', {}, t('pair-code'), el('input', { name: 'code', required: true, autocomplete: 'one-time-code', maxlength: 20 })),
    el('label', {}, t('pair-name'), el('input', { name: 'name', required: true, autocomplete: 'off', maxlength: 64 })), el('button', { class: 'chief' }, t('pair'))));
  form.addEventListener('submit', told(say, async () => {
    await api('pairing', { method: 'POST', json: Object.fromEntries(new FormData(form)) });
    paired();
  }));
  return [form];
}
