import { TachCard } from '../tach/TachCard.tsx';

/** The bench: what was built, measured. */
export function BenchStage() {
  return <TachCard />;
}
