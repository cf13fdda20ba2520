// What a browser asks the network for, by its own log: that of its whole network stack, so it holds requests of pages, workers,
// workers' workers, service workers, beacons and sockets.
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { launch } from './rig.mjs';

// Chromium itself asks its maker what kinds of fields a page has, unless it is told not to; no page can ask it for that.
const OWN = '--disable-features=AutofillServerCommunication';

/** A browser that keeps a log; `asked` closes it, and gives the address of all that a page had it ask for. */
export async function logged() {
  const folder = await mkdtemp(join(tmpdir(), 'cordonry-log-'));
  const file = join(folder, 'net.json');
  const browser = await launch([`--log-net-log=${file}`, OWN]);
  const asked = async () => {
    await browser.close();
    try {
      return read(JSON.parse(await readFile(file, 'utf8')));
    } finally {
      await rm(folder, { recursive: true });
    }
  };
  return { browser, asked };
}

// A browser has requests of its own, for the time or a newer version of itself: nobody's page began them, and they are kept
// apart from every site's.
const NOBODY = 'not an origin';
const APART = /^null|google\.com/;

function read({ constants, events }) {
  const { URL_REQUEST_START_JOB: begins } = constants.logEventTypes;
  const requests = events.filter(({ type, params }) => type === begins && params?.url).map(({ params }) => params);
  return requests.filter(({ initiator, network_isolation_key: site }) => initiator !== NOBODY || !APART.test(site)).map(({ url }) => url);
}

/** What of it is elsewhere than at an origin, each once. */
export const elsewhere = (asked, origin) => [...new Set(asked)].filter((url) => new URL(url).origin !== origin);
