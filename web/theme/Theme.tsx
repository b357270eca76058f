import '@fontsource-variable/inter/wght.css';
import '@mantine/core/styles.css';
import './theme.css';
import { createTheme, MantineProvider, useComputedColorScheme } from '@mantine/core';
import { useLocalStorage } from '@mantine/hooks';
import { createContext, type ReactNode, useContext, useEffect, useMemo } from 'react';
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

interface SizeState {
  readonly size: Size;
  readonly setSize: (size: Size) => void;
}
const SizeContext = createContext<SizeState>({ size: 'normal', setSize: () => {} });

/** The size the page is read at, and how to change it. */
export const useReadingSize = (): SizeState => useContext(SizeContext);

/** The look of the whole app: fonts, paper, Mantine's variables, the style of charts. Writes no `<style>` element. */
export function Theme({ children }: { readonly children: ReactNode }) {
  const [size, setSize] = useLocalStorage<Size>({
    key: 'pullbook-size',
    defaultValue: 'normal',
    getInitialValueInEffect: false,
  });
  useEffect(() => {
    document.documentElement.dataset.pbSize = size;
  }, [size]);
  const state = useMemo(() => ({ size, setSize }), [size, setSize]);
  return (
    <MantineProvider
      theme={theme}
      defaultColorScheme="auto"
      withCssVariables={false}
      withGlobalClasses={false}
    >
      <SizeContext.Provider value={state}>
        <Charts size={size}>{children}</Charts>
      </SizeContext.Provider>
    </MantineProvider>
  );
}

function Charts({ size, children }: { readonly size: Size; readonly children: ReactNode }) {
  const scheme = useComputedColorScheme('light', { getInitialValueInEffect: false });
  const style = useMemo<ChartStyle>(() => chartStyle(scheme, size), [scheme, size]);
  return <ChartStyleContext.Provider value={style}>{children}</ChartStyleContext.Provider>;
}
