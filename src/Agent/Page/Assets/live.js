import { set } from './clock.js';

// The moment as the station has it, kept up through reloads, sleep, lost networks and a restarted agent.
const silence = 25_000, pause = 1_000;
let source, heard = 0, timer, tell = () => {}, lost = () => {};

let open = () => {
  clearTimeout(timer);
  source?.close();
  source = new EventSource('/api/v1/live');
  heard = Date.now();
  source.addEventListener('now', message => { heard = Date.now(); lost(false); tell(JSON.parse(message.data)); });
  source.addEventListener('beat', message => { heard = Date.now(); set(JSON.parse(message.data).at); lost(false); });
  source.onerror = () => {
    lost(true);
    // A browser gives up where the station answered with anything but a stream.
    if (source.readyState === EventSource.CLOSED) timer = setTimeout(() => open(), pause);
  };
};

export let unfollow = () => {};

const look = () => { if (Date.now() - heard > silence) { lost(true); open(); } };

/** @param onMoment called with each situation; @param onLost called with true or false */
export function follow(onMoment, onLost) {
  [tell, lost] = [onMoment, onLost];
  open();
  const looking = setInterval(look, 5_000);
  // For a device that is not known here: it asks no more.
  unfollow = () => { clearInterval(looking); clearTimeout(timer); source.onerror = null; source.close(); lost(false); open = () => {}; };
  document.addEventListener('visibilitychange', () => { if (!document.hidden && (source.readyState !== EventSource.OPEN || Date.now() - heard > 12_000)) open(); });
  addEventListener('online', () => open());
  addEventListener('pageshow', event => { if (event.persisted) open(); });
}
