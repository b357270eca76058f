import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

export interface Box {
  readonly width: number;
  readonly height: number;
}

/** Size of an element in CSS pixels, kept up to date; null until it is on screen. */
export function useSize<Element extends HTMLElement>(): readonly [
  RefObject<Element | null>,
  Box | null,
] {
  const ref = useRef<Element>(null);
  const [box, setBox] = useState<Box | null>(null);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const read = () => {
      const next = {
        width: Math.floor(element.clientWidth),
        height: Math.floor(element.clientHeight),
      };
      setBox((now) => (now?.width === next.width && now.height === next.height ? now : next));
    };
    read();
    const observer = new ResizeObserver(read);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, box];
}
