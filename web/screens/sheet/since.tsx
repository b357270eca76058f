import { useQuery } from '@tanstack/react-query';
import { useParams } from '@tanstack/react-router';
import { sheetQuery } from '../../api/queries.ts';
import { ChangesView } from '../../build/ChangesView.tsx';
import { Page } from '../../shell/page.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { useSheetPage } from './sheet-page.ts';
import { ToSheet } from './to-sheet.tsx';

/** What changed from the build before to this one, measured and computed. */
export function SinceScreen() {
  const { id } = useParams({ from: '/builds/$id/changes' });
  const around = useSheetPage(id);
  const kept = useQuery(sheetQuery(id));
  const { build, before, earlier, shop } = around;
  const error = around.error ?? kept.error;
  const isReady = build && shop && kept.data && earlier !== undefined;
  const own = kept.data?.sheet ?? null;
  return (
    <Page
      title={build && before ? `${before.name} to ${build.name}` : 'What changed'}
      crumbs={[
        ...around.crumbs,
        { label: 'Sheet', to: `/builds/${encodeURIComponent(id)}/sheet` },
        { label: 'What changed' },
      ]}
    >
      {error !== null && <Trouble error={error} retry={() => window.location.reload()} />}
      {!isReady && error === null && <Waiting what="both sheets" />}
      {isReady &&
        (own === null || before === null || !earlier?.sheet ? (
          <Nothing
            title="Nothing to compare yet"
            action={<ToSheet buildId={id}>To the sheet</ToSheet>}
          >
            Both this build and the one before it need a sheet; then what changed stands here.
          </Nothing>
        ) : (
          <ChangesView
            before={{ name: before.name, sheet: earlier.sheet }}
            after={{ name: build.name, sheet: own }}
            own={shop.windows}
          />
        ))}
    </Page>
  );
}
