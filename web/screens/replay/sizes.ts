/** Sizes of the picture [pixels], as they are asked for on screens. */
export const SIZES = {
  screen: { width: 1920, height: 1080, label: 'Screen, 1920 × 1080' },
  large: { width: 3840, height: 2160, label: 'Large screen, 3840 × 2160' },
  square: { width: 1080, height: 1080, label: 'Square, 1080 × 1080' },
  story: { width: 1080, height: 1920, label: 'Tall, 1080 × 1920' },
} as const;
export type SizeName = keyof typeof SIZES;

export const SIZE_CHOICES = Object.entries(SIZES).map(([value, { label }]) => ({ value, label }));
export const isSize = (name: string): name is SizeName => name in SIZES;
