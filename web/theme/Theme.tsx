import '@fontsource-variable/inter/wght.css';
import '@mantine/core/styles.css';
import './theme.css';
import { createTheme, MantineProvider, useComputedColorScheme } from '@mantine/core';
import { type ReactNode, useEffect, useMemo } from 'react';
import { type ChartStyle, ChartStyleContext, chartStyle } from './chart-style.ts';
import type { Size } from './palette.ts';

const theme = createTheme({
  fontFamily: '"Inter Variable", system-ui, "Segoe UI", Roboto, sans-serif',
  primaryColor: 'ink',
  colors: {
    ink: [
      '#f4f2ec',
      '#e3e1db',
      '#c9c7c1',
      '#a9a8a3',
      '#85858a',
      '#5b5f64',
      '#3c4046',
      '#2a2e34',
      '#1d2126',
      '#121519',
    ],
  },
  defaultRadius: 'sm',
  respectReducedMotion: true,
  components: {
    // The scroll lock works through a <style> element, which a strict content security policy refuses.
    Drawer: { defaultProps: { lockScroll: false } },
    Modal: { defaultProps: { lockScroll: false } },
  },
});

interface ThemeProps {
  /** The size the page is read at; the caller keeps the person's choice. */
  readonly size: Size;
  readonly children: ReactNode;
}

/** The look of the whole app: fonts, paper, Mantine's variables, the style of charts. Writes no `<style>` element. */
export function Theme({ size, children }: ThemeProps) {
  useEffect(() => {
    document.documentElement.dataset.size = size === 'wall' ? 'wall' : 'desk';
  }, [size]);
  return (
    <MantineProvider
      theme={theme}
      defaultColorScheme="auto"
      withCssVariables={false}
      withGlobalClasses={false}
    >
      <Charts size={size}>{children}</Charts>
    </MantineProvider>
  );
}

function Charts({ size, children }: { readonly size: Size; readonly children: ReactNode }) {
  const scheme = useComputedColorScheme('light', { getInitialValueInEffect: false });
  const style = useMemo<ChartStyle>(() => chartStyle(scheme, size), [scheme, size]);
  return <ChartStyleContext.Provider value={style}>{children}</ChartStyleContext.Provider>;
}
