// A server in front of the program's own, which tells what is asked and may answer otherwise. It stays until the file's
// tests are over: a page asks for its manifest whenever it likes, and one that is cut off then is at fault.
import { createServer, request as ask } from 'node:http';
import { after } from 'node:test';
import { base } from './rig.mjs';

/**
 * Tells each answer in `answers`, with the address of who asked in `by`; `stop` has it answer no more. For a path that is asked for,
 *   from    the path of the program's own server, nothing for none
 *   change  what makes other words of the answer's, if anything does
 *   headers what makes other headers of the answer's
 */
export async function between({ from = (path) => path, change = () => undefined, headers: other = (same) => same } = {}) {
  const answers = [];
  const server = createServer(({ url, method, headers }, reply) => {
    const path = from(url);
    if (path === undefined) {
      answers.push({ path: url, status: 404, bytes: 0 });
      reply.writeHead(404).end();
      return;
    }
    const words = change(url);
    // What is to be changed must come unpacked.
    if (words) delete headers['accept-encoding'];
    ask(new URL(path, base), { method, headers }, (answer) => {
      const parts = [];
      answer.on('data', (part) => parts.push(part));
      answer.on('end', () => {
        const sent = Buffer.concat(parts);
        const body = words ? Buffer.from(words(sent.toString())) : sent;
        answers.push({ path: url, status: answer.statusCode, bytes: body.length, coding: answer.headers['content-encoding'], by: headers.referer ?? '' });
        reply.writeHead(answer.statusCode, other({ ...answer.headers, 'content-length': body.length })).end(body);
      });
    }).end();
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  server.unref();
  const { port } = server.address();
  const stop = () => {
    server.closeAllConnections();
    server.close();
  };
  after(stop);
  return { answers, address: `http://127.0.0.1:${port}/`, stop };
}
