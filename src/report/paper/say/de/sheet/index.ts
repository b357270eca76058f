import type { Phrase } from '../../phrases.ts';
import { checks } from './checks.ts';
import { fieldsAround } from './fieldsAround.ts';
import { fieldsBottom } from './fieldsBottom.ts';
import { fieldsTop } from './fieldsTop.ts';
import { figures } from './figures.ts';
import { fuels } from './fuels.ts';
import { notes } from './notes.ts';
import { places } from './places.ts';
import { plan } from './plan.ts';
import { problems } from './problems.ts';
import { remedies } from './remedies.ts';
import { sources } from './sources.ts';

/** What the build sheet and the test plan say (`src/build`), and what of the trade speaks through them. */
export const sheet: readonly Phrase[] = [
  ...fieldsBottom,
  ...fieldsTop,
  ...fieldsAround,
  ...places,
  ...figures,
  ...checks,
  ...remedies,
  ...sources,
  ...plan,
  ...fuels,
  ...notes,
  ...problems,
];
