/** A configuration as names and words (`plugs: one step colder`). */
type ConfigurationWords = Readonly<Record<string, string>>;

/**
 * What one pull's configuration has that not all pulls of the day share, in words; null where it differs in nothing.
 * Names that only other pulls have are said too (`plugs: not said`), since a part that came off is a difference.
 */
export function configurationWords(
  own: ConfigurationWords,
  all: readonly ConfigurationWords[],
): string | null {
  const names = [...new Set(all.flatMap((one) => Object.keys(one)))].sort();
  const differing = names.filter((name) => new Set(all.map((one) => one[name])).size > 1);
  if (differing.length === 0) return null;
  return differing
    .map((name) => {
      const said = own[name] ?? 'not said';
      return name === 'configuration' ? said : `${name}: ${said}`;
    })
    .join('; ');
}
