import type { ReactNode } from 'react';

interface PictureProps {
  readonly width: number;
  readonly height: number;
  /** What the picture says, in sentences, for those who do not see it. */
  readonly label: string;
  readonly children: ReactNode;
}

/** The outer element of every chart. A group, not an image: its cursor and grips must stay reachable. */
export function Picture({ width, height, label, children }: PictureProps) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot stand inside a picture
    <svg
      xmlns="http://www.w3.org/2000/svg"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="group"
      aria-label={label}
    >
      {children}
    </svg>
  );
}
