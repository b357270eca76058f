/** Routes of photos and files: bytes in, bytes out, and what is said of them. */
import type { BuildFile, PullbookRecord } from '../../record/index.ts';
import { files } from '../contract/files.ts';
import { RequestRefused } from '../errors.ts';
import { mediaTypeOf, safeToOpen } from '../work/mediaType.ts';
import { bodyOf, spool } from '../work/spool.ts';
import type { Api } from './api.ts';
import { changeOf } from './shelves.ts';

/** A photo of a good camera has some 15 MB. */
export const MAX_FILE_BYTES = 40e6;

export function serveFiles(api: Api, record: PullbookRecord, maxBytes = MAX_FILE_BYTES): void {
  const shown = async (file: BuildFile) => {
    const { mediaType, sizeBytes } = (await record.files.find(file.sha256))!;
    return { ...file, mediaType, sizeBytes };
  };
  api.openapi(files.list, async (c) => {
    const { id } = c.req.valid('param');
    await record.builds.get(id);
    const all = await record.buildFiles.list({ buildId: id });
    return c.json(await Promise.all(all.map(shown)), 200);
  });
  api.openapi(files.put, async (c) => {
    const { id: buildId } = c.req.valid('param');
    const { name: fileName, section, caption } = c.req.valid('query');
    await record.builds.get(buildId);
    const tooLarge = () =>
      new RequestRefused(
        413,
        'too-large',
        `${fileName} has more than ${Math.round(maxBytes / 1e6)} MB; make it smaller, or keep it beside the book.`,
        { file: fileName, expected: `at most ${Math.round(maxBytes / 1e6)} MB` },
      );
    if (Number(c.req.header('content-length') ?? 0) > maxBytes) throw tooLarge();
    const spooled = await spool(c.req.raw.body, {
      folder: record.folder,
      fileName,
      maxBytes,
      tooLarge,
    });
    try {
      if (spooled.sizeBytes === 0)
        throw new RequestRefused(422, 'input', `${fileName} is empty; nothing was stored.`, {
          file: fileName,
          found: '0 bytes',
          expected: 'a file that holds something',
        });
      const mediaType = await mediaTypeOf(await spooled.head(), fileName);
      const { file, isNew } = await record.buildFiles.put(
        {
          buildId,
          fileName,
          section: section ?? null,
          caption: caption ?? '',
          mediaType,
          bytes: spooled.file,
        },
        changeOf(c),
      );
      return c.json(await shown(file), isNew ? 201 : 200);
    } finally {
      await spooled.release();
    }
  });
  api.openapi(files.bytes, async (c) => {
    const file = await record.buildFiles.get(c.req.valid('param').id);
    const { mediaType, sizeBytes } = await shown(file);
    return new Response(bodyOf(record.files.pieces(file.sha256)), {
      headers: {
        ...safeToOpen(mediaType, file.fileName),
        'content-length': String(sizeBytes),
        // The bytes of a file never change, so that a page of photos is fetched once.
        'cache-control': 'private, max-age=86400, immutable',
      },
    }) as never;
  });
  api.openapi(files.update, async (c) => {
    const { id } = c.req.valid('param');
    const patch = c.req.valid('json');
    return c.json(
      await shown(await record.buildFiles.update(id, patch as never, changeOf(c))),
      200,
    );
  });
  api.openapi(files.remove, async (c) => {
    await record.buildFiles.remove(c.req.valid('param').id, changeOf(c));
    return c.body(null, 204);
  });
}
