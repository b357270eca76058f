export { LadderScreen } from './LadderScreen.tsx';
export { LadderView } from './LadderView.tsx';
export type {
  DecisionNote,
  LadderScreenProps,
  LadderTitle,
  LadderViewProps,
  NewDecisionNote,
  PullDetail,
} from './props.ts';
