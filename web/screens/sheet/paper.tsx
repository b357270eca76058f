import { useQuery } from '@tanstack/react-query';
import { useParams } from '@tanstack/react-router';
import { sheetQuery } from '../../api/queries.ts';
import { SheetPaper } from '../../build/SheetPaper.tsx';
import { Page } from '../../shell/page.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { useSheetPage } from './sheet-page.ts';
import { ToSheet } from './to-sheet.tsx';

/** The whole sheet of a build on one page, to be read through or printed. */
export function PaperScreen() {
  const { id } = useParams({ from: '/builds/$id/paper' });
  const around = useSheetPage(id);
  const kept = useQuery(sheetQuery(id));
  const { build, engine, shop } = around;
  const error = around.error ?? kept.error;
  const isReady = build && engine && shop && kept.data;
  const title = isReady ? `Build sheet: ${engine.name}, ${build.name}` : 'Build sheet';
  return (
    <Page
      title={title}
      crumbs={[
        ...around.crumbs,
        { label: 'Sheet', to: `/builds/${encodeURIComponent(id)}/sheet` },
        { label: 'On paper' },
      ]}
    >
      {error !== null && <Trouble error={error} retry={() => window.location.reload()} />}
      {!isReady && error === null && <Waiting what="the build sheet" />}
      {isReady &&
        (kept.data.sheet === null ? (
          <Nothing title="No sheet yet" action={<ToSheet buildId={id}>To the sheet</ToSheet>}>
            Begin the sheet of this build first; then all of it stands here, ready to be printed.
          </Nothing>
        ) : (
          <SheetPaper title={title} sheet={kept.data.sheet} own={shop.windows} />
        ))}
    </Page>
  );
}
