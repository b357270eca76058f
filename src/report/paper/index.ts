import { shortened } from '../../signs.ts';
import type { UnitSystem } from '../../units/index.ts';
import { keyName } from '../handover/signing.ts';
import type { HandOver } from '../handover/types.ts';
import type { Block, Paper } from './blocks.ts';
import { evidence } from './evidence.ts';
import { findings } from './findings.ts';
import { namesIn } from './names.ts';
import { catalogueOf, type Language } from './say/index.ts';
import { Teller } from './tell.ts';

export { LANGUAGES, type Language } from './say/index.ts';

/** The first page alone, for a screen; in other units than the report where those are read there. */
export function findingsOf(
  handOver: HandOver,
  language: Language,
  units: UnitSystem = handOver.choice.units,
): { readonly title: string; readonly language: string; readonly blocks: readonly Block[] } {
  const tell = new Teller(catalogueOf(language), units, namesIn(handOver));
  const { words } = tell;
  const first = findings(handOver, tell);
  return {
    title: titleOf(handOver, words.title),
    language: words.language,
    blocks: [...first, ...whatStayedEnglish(tell)],
  };
}

/** Read when everything is told: the note is there only where it is true. */
const whatStayedEnglish = ({ inEnglish, words }: Teller): Block[] =>
  inEnglish.length === 0
    ? []
    : [{ kind: 'paragraph', text: words.findings.inEnglish, quiet: true }];

/** So that the foot stays one line. */
const FOOT_LETTERS = 44;

const titleOf = ({ engine, build }: HandOver, title: string) =>
  `${title}: ${engine.name}, ${build.name}`;

/**
 * A hand-over as a document: findings on one page, then the evidence.
 * @param publicKey  of the key it is signed with, base64; null: it is not signed
 */
export function paperOf(handOver: HandOver, language: Language, publicKey: string | null): Paper {
  const tell = new Teller(catalogueOf(language), handOver.choice.units, namesIn(handOver));
  const { words } = tell;
  const signed = publicKey === null ? null : { publicKey, keyName: keyName(publicKey) };
  const first = findings(handOver, tell);
  const pages = evidence(handOver, signed, tell);
  return {
    title: titleOf(handOver, words.title),
    language: words.language,
    author: handOver.shop.name,
    mark: handOver.shop.mark ?? null,
    madeAt: handOver.madeAt,
    foot: words.foot(
      shortened(handOver.shop.name, FOOT_LETTERS),
      shortened(`${handOver.engine.name}, ${handOver.build.name}`, FOOT_LETTERS),
    ),
    page: words.page,
    parts: words.parts,
    blocks: [...first, ...whatStayedEnglish(tell), ...pages],
  };
}
