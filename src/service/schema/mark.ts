/** The mark of a shop as it is sent and kept: the picture itself, as a data URL. */
const MOST_BYTES = 200_000;
const PNG = '\x89PNG\r\n\x1a\n';

/** What keeps a text from being the mark of a shop, in a sentence; null: nothing. */
export function whyNoMark(dataUrl: string): string | null {
  const found = /^data:image\/(png|svg\+xml);base64,([A-Za-z0-9+/]+=*)$/.exec(dataUrl);
  if (found === null) return 'expected a PNG or SVG picture';
  const bytes = Buffer.from(found[2]!, 'base64');
  if (bytes.length > MOST_BYTES)
    return `the picture has ${Math.round(bytes.length / 1000)} kB; expected at most ${MOST_BYTES / 1000} kB`;
  if (found[1] === 'png')
    return bytes.toString('latin1').startsWith(PNG) ? null : 'the picture is no PNG';
  const text = bytes.toString('utf8').replace(/^\ufeff/, '');
  const root = text.replace(/<\?.*?\?>|<!--.*?-->/gs, '').trimStart();
  if (!/^<svg[\s>]/.test(root)) return 'the picture is no SVG, or has something before its drawing';
  // It is only ever shown as a picture, where nothing of this acts; what wants to act is no mark.
  if (/<!ENTITY|<script|<foreignObject|\son\w+\s*=/i.test(root))
    return 'the SVG holds more than a drawing; expected one without scripts or pages in it';
  return null;
}
