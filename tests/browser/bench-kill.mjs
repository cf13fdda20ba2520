// Kills the browser fifty times, or as often as is said, in bursts of edits, and counts what is lost.
import { kills } from './kill.mjs';

const told = await kills(Number(process.argv[2] ?? 50));
const sum = (key) => told.reduce((all, kill) => all + kill[key], 0);
const most = (key) => Math.max(...told.map((kill) => kill[key]));
const figure = (measure, unit, ours, anchor = null) => console.log(JSON.stringify({ measure, unit, ours, anchor }));
console.log(`lost at each kill: ${told.map(({ lost, made }) => `${lost}/${made}`).join(' ')}`);
figure('kills', '', told.length);
figure('edits made', '', sum('made'));
figure('edits lost', '', sum('lost'));
figure('most lost at a kill', '', most('lost'));
// Beside it the half second that may be lost.
figure('longest stretch lost', 'ms', most('stretch'), 500);
