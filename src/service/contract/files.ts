/** Photos and files of a build and of the sections of its sheet. */
import { id, isoTime, list, text, z } from '../schema/common.ts';
import {
  answers,
  body,
  byId,
  createRoute,
  json,
  nameQuery,
  nothing,
  rawFile,
  refusals,
} from './parts.ts';

const section = z.string().min(1).max(40);
const buildFile = z
  .object({
    id,
    buildId: id,
    sha256: z.string(),
    fileName: z.string().openapi({ description: 'As it came; to be shown as text.' }),
    section: section.nullable().openapi({
      description: 'Section of the sheet; null: the build as a whole.',
    }),
    caption: z.string(),
    who: z.string(),
    putAt: isoTime,
    mediaType: z.string().openapi({ description: 'By its bytes, not by its name.' }),
    sizeBytes: z.number().int(),
  })
  .openapi('BuildFile', { description: 'A photo or file put to a build.' });
const tags = ['photos and files'];
const caption = text.max(2000);

export const files = {
  list: createRoute({
    method: 'get',
    path: '/builds/{id}/files',
    tags,
    summary: 'Photos and files of a build, in the order in which they were put there',
    request: { params: byId },
    responses: answers(list(buildFile), 'Its photos and files'),
  }),
  put: createRoute({
    method: 'post',
    path: '/builds/{id}/files',
    tags,
    summary: 'Put a photo or file to a build; the body is its bytes',
    description:
      'At most 40 MB. The same bytes stand once in a section: 201 when they are new there, 200 when they stood there already.',
    request: {
      params: byId,
      query: nameQuery.extend({ section: section.optional(), caption: caption.optional() }),
      body: { ...rawFile, required: true },
    },
    responses: {
      200: json(buildFile, 'It stood there already.'),
      201: json(buildFile, 'Put to the build.'),
      ...refusals,
    },
  }),
  bytes: createRoute({
    method: 'get',
    path: '/files/{id}/bytes',
    tags,
    summary: 'The photo or file as it came, byte for byte',
    description:
      'Pictures and plain text may be opened; everything else is handed out as a download.',
    request: { params: byId },
    responses: { 200: rawFile, ...refusals },
  }),
  update: createRoute({
    method: 'patch',
    path: '/files/{id}',
    tags,
    summary: 'Change the caption of a photo or file, or move it to another section',
    request: {
      params: byId,
      body: body(z.object({ caption, section: section.nullable() }).partial().strict()),
    },
    responses: answers(buildFile, 'The file as it now stands'),
  }),
  remove: createRoute({
    method: 'delete',
    path: '/files/{id}',
    tags,
    summary: 'Take a photo or file off its build; POST /undo brings it back',
    request: { params: byId },
    responses: nothing,
  }),
};
