import { useQuery } from '@tanstack/react-query';
import { shopKeyQuery } from '../../api/queries.ts';
import { Trouble } from '../../shell/states.tsx';
import styles from './handover.module.css';

/** The short name of the key, by which a reader knows this shop again. */
export function SignedWith() {
  const key = useQuery(shopKeyQuery);
  if (key.isError) return <Trouble error={key.error} />;
  return (
    <p className={styles.key}>
      The key of this shop: <b className={styles.keyName}>{key.data?.name ?? '…'}</b>.{' '}
      <span className="quiet">
        Every hand-over is signed with it and names it. Whoever knows it from you can tell yours
        from one that somebody else made.
      </span>
    </p>
  );
}
