import { keyName } from '../handover/signing.ts';
import type { HandOver } from '../handover/types.ts';
import type { Paper } from './blocks.ts';
import { evidence } from './evidence.ts';
import { findings } from './findings.ts';
import { type Language, wordsOf } from './say/index.ts';
import { Teller } from './tell.ts';

export { LANGUAGES, type Language } from './say/index.ts';

/**
 * A hand-over as a document: findings on one page, then the evidence.
 * @param publicKey  of the key it is signed with, base64; null: it is not signed
 */
export function paperOf(handOver: HandOver, language: Language, publicKey: string | null): Paper {
  const words = wordsOf(language);
  const tell = new Teller(words, handOver.choice.units);
  const signed = publicKey === null ? null : { publicKey, keyName: keyName(publicKey) };
  return {
    title: `${words.title}: ${handOver.engine.name}, ${handOver.build.name}`,
    language: words.language,
    author: handOver.shop.name,
    madeAt: handOver.madeAt,
    foot: words.foot(handOver.shop.name, `${handOver.engine.name}, ${handOver.build.name}`),
    page: words.page,
    blocks: [...findings(handOver, tell), ...evidence(handOver, signed, tell)],
  };
}
