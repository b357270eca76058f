/** Typed lines as a file of the format use/1; a bare speed is in rpm, a bare share or load in percent. */
export function typedUse(name: string, text: string): Readonly<Record<string, unknown>> {
  const points = text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => {
      const [speed = '', share = '', load] = line.split(/\s*[,;\t]\s*/);
      const withUnit = (one: string, unit: string) =>
        /^[\d.]+$/.test(one) ? `${one} ${unit}` : one;
      return {
        speed: withUnit(speed, 'rpm'),
        share: withUnit(share, '%'),
        ...(load === undefined || load === '' ? {} : { load: withUnit(load, '%') }),
      };
    });
  return { format: 'use/1', name: name.slice(0, 80), points };
}
