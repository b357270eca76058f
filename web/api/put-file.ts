import { addressOf, refusalOf, ServiceError, SILENT, signature } from './client.ts';
import type { Routes } from './types.gen.ts';

/** Routes whose body is the bytes of one file, named in the query. */
type FileRoute =
  | 'POST /builds/{id}/files'
  | 'POST /builds/{id}/sheet/read'
  | 'POST /uses/from-log'
  | 'POST /verify'
  | 'POST /take'
  | 'POST /take/look';

/**
 * Sends the bytes of one file as they are.
 * @throws ServiceError with the service's own sentence, or with code `silent` where it does not answer
 */
export async function putFile<R extends FileRoute>(
  route: R,
  params: Routes[R]['params'],
  file: Blob,
  query: Routes[R]['query'],
): Promise<Routes[R]['answer']> {
  let answer: Response;
  try {
    answer = await fetch(addressOf(route.slice('POST '.length), params ?? {}, query), {
      method: 'POST',
      headers: {
        accept: 'application/json',
        'content-type': 'application/octet-stream',
        ...signature(),
      },
      body: file,
    });
  } catch {
    throw new ServiceError(SILENT, 'silent');
  }
  if (!answer.ok) throw refusalOf(answer.status, await answer.text());
  return (await answer.json()) as Routes[R]['answer'];
}
