/** What a writer writes in pieces, as a stream that a response can send. */
import { Readable } from 'node:stream';

/** A stream of what a writer writes, no faster than it is read. */
export function piecesFrom(
  work: (write: (piece: Uint8Array) => Promise<void>) => Promise<void>,
): Readable {
  let wanted: () => void = () => {};
  const stream = new Readable({
    read() {
      wanted();
    },
  });
  const write = (piece: Uint8Array) =>
    new Promise<void>((done, fail) => {
      if (stream.destroyed) return fail(new Error('nobody reads any more'));
      stream.once('close', done);
      if (stream.push(Buffer.from(piece))) {
        stream.removeListener('close', done);
        return done();
      }
      wanted = () => {
        stream.removeListener('close', done);
        done();
      };
    });
  work(write).then(
    () => stream.push(null),
    (error: Error) => stream.destroy(error),
  );
  return stream;
}
