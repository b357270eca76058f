import type { ReactNode } from 'react';

/** Our few icons, drawn on a 16-unit square in the colour of the text beside them. Always next to a word or a label. */
function Icon({ children }: { readonly children: ReactNode }) {
  return (
    <svg
      width="1em"
      height="1em"
      viewBox="0 0 16 16"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.5"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
      focusable="false"
    >
      {children}
    </svg>
  );
}

export const LookIcon = () => (
  <Icon>
    <path d="M8 2 14.5 13.5h-13Z" />
    <path d="M8 6.5v3.2M8 11.6v.1" />
  </Icon>
);
export const StopIcon = () => (
  <Icon>
    <path d="M5.5 1.8h5l3.7 3.7v5l-3.7 3.7h-5l-3.7-3.7v-5Z" />
    <path d="M8 4.8v4M8 11v.1" />
  </Icon>
);
export const NoteIcon = () => (
  <Icon>
    <circle cx="8" cy="8" r="6.2" />
    <path d="M8 7.4v3.6M8 5v.1" />
  </Icon>
);
export const CareIcon = () => (
  <Icon>
    <path d="M8 1.8 13.2 4v4c0 3.2-2.2 5.2-5.2 6.2C5 13.2 2.8 11.2 2.8 8V4Z" />
  </Icon>
);
export const TableIcon = () => (
  <Icon>
    <path d="M2 3h12v10H2ZM2 6.3h12M2 9.6h12M6.5 3v10" />
  </Icon>
);
export const PictureIcon = () => (
  <Icon>
    <path d="M2 13.5V2.5M2 13.5h12M4.5 10.5c2-5 4-6 8.5-6.5" />
  </Icon>
);
export const SaveIcon = () => (
  <Icon>
    <path d="M8 2v8M4.8 7 8 10.2 11.2 7M2.5 13.5h11" />
  </Icon>
);
export const BackIcon = () => (
  <Icon>
    <path d="M3 3.5v3.8h3.8M3.3 7.1A5.5 5.5 0 1 1 3 10" />
  </Icon>
);
export const ArrowIcon = () => (
  <Icon>
    <path d="M3 8h10M9 4l4 4-4 4" />
  </Icon>
);
export const CheckIcon = () => (
  <Icon>
    <path d="M3 8.5 6.5 12 13 4.5" />
  </Icon>
);
