export { BandPicker, movedBand } from './BandPicker.tsx';
export { ChartFrame, type ChartFrameProps } from './ChartFrame.tsx';
export { CurveChart, type CurveChartProps, type CurveSeries, curveTable } from './CurveChart.tsx';
export { GainChart, type GainChartProps, gainTable } from './GainChart.tsx';
export { LossMap, type LossMapProps, lossTable } from './LossMap.tsx';
export {
  ResponseChart,
  type ResponseChartProps,
  responseTable,
  type UseFlag,
} from './ResponseChart.tsx';
export { type Span, valueAt } from './scale.ts';
export { type TableModel, TableView } from './TableView.tsx';
export { type Box, useSize } from './useSize.ts';
export { useZoom, type Zoom } from './zoom.ts';
