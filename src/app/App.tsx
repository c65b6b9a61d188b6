import { useEffect, type ComponentType } from 'react';
import { BalanceStage } from './balance/BalanceStage.tsx';
import { BenchStage } from './bench/BenchStage.tsx';
import { BuildsStage } from './builds/BuildsStage.tsx';
import { BriefStage } from './brief/BriefStage.tsx';
import { CraftStage } from './craft/CraftStage.tsx';
import { FanStage } from './fan/FanStage.tsx';
import { NoticeBar } from './frame/NoticeBar.tsx';
import { StageRail } from './frame/StageRail.tsx';
import { TopBar } from './frame/TopBar.tsx';
import { useDrop } from './frame/useDrop.ts';
import { useKeys } from './frame/useKeys.ts';
import { MakeupStage } from './makeup/MakeupStage.tsx';
import { Margin } from './margin/Margin.tsx';
import { VerdictLine } from './margin/VerdictLine.tsx';
import { PrintStage } from './print/PrintStage.tsx';
import { SoundStage } from './sound/SoundStage.tsx';
import { StartDialog } from './start/StartDialog.tsx';
import { useApp, type Stage } from './state/store.ts';

const STAGES: Readonly<Record<Stage, ComponentType>> = {
  brief: BriefStage,
  makeup: MakeupStage,
  craft: CraftStage,
  fan: FanStage,
  sound: SoundStage,
  print: PrintStage,
  balance: BalanceStage,
  bench: BenchStage,
  builds: BuildsStage,
};

/** The page: bar on top, stages on the left, the work in the middle, the answers in the margin. */
export function App() {
  useKeys();
  const over = useDrop();
  const name = useApp((s) => s.project.name);
  useEffect(() => {
    document.title = name ? `${name} · Fanwright` : 'Fanwright';
  }, [name]);
  const stage = useApp((s) => s.stage);
  const starting = useApp((s) => s.starting);
  const Stage = STAGES[stage];
  return (
    <div className="page">
      <TopBar />
      <div className="rail-place">
        <StageRail />
        <VerdictLine />
      </div>
      <main className="work" id="work" key={stage}>
        <NoticeBar />
        <Stage />
      </main>
      <Margin />
      {starting && <StartDialog />}
      {over && <div className="drop">Let go to open the project file</div>}
    </div>
  );
}
