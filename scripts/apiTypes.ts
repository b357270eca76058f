// Writes web/api/types.gen.ts from the OpenAPI document: `npm run openapi`.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { formattedApiTypes } from '../src/service/apiTypesFile.ts';

const target = join(import.meta.dirname, '..', 'web', 'api', 'types.gen.ts');
writeFileSync(target, formattedApiTypes());
process.stderr.write('wrote web/api/types.gen.ts\n');
