interface HeadsProps {
  /** Words over the columns, in their order. */
  readonly of: readonly string[];
  /** What a last column of buttons does; heard, not seen. */
  readonly acts?: string;
}

/** The heads of a table whose cells are drawn by hand. */
export function Heads({ of, acts }: HeadsProps) {
  return (
    <thead>
      <tr>
        {of.map((name) => (
          <th key={name} scope="col">
            {name}
          </th>
        ))}
        {acts !== undefined && (
          <th scope="col">
            <span className="unseen">{acts}</span>
          </th>
        )}
      </tr>
    </thead>
  );
}
