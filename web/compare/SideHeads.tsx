import styles from './compare.module.css';
import { SideMark } from './SideMark.tsx';

/** Heads of a table's columns, a side each: its mark over its name. */
export function SideHeads({ names }: { readonly names: readonly string[] }) {
  return names.map((name, at) => (
    <th key={name} scope="col">
      <SideMark side={at} count={names.length} />
      <span className={styles.columnName}>{name}</span>
    </th>
  ));
}
