import { atmosphereTopic } from './atmosphere.ts';
import { balanceTopic } from './balance.ts';
import { benchDiagnosisTopic } from './bench-diagnosis.ts';
import { benchTopic } from './bench.ts';
import type { Topic } from './check.ts';
import { craftTopic } from './craft.ts';
import { driveTopic } from './drive.ts';
import { ductTopic } from './duct.ts';
import { flowTopic } from './flow.ts';
import { hoverTopic } from './hover.ts';
import { inletTopic } from './inlet.ts';
import { momentumTopic } from './momentum.ts';
import { motorTopic } from './motor.ts';
import { printTopic } from './print.ts';
import { rotorTopic } from './rotors.ts';
import { sectionTopic } from './sections.ts';
import { shapeTopic } from './shapes.ts';
import { soundTopic } from './sound.ts';
import { strengthTopic } from './strength.ts';
import { studyTopic } from './study.ts';

/** Every topic, in the order of docs/checks.md. */
export const topics: readonly Topic[] = [
  atmosphereTopic,
  momentumTopic,
  shapeTopic,
  inletTopic,
  sectionTopic,
  rotorTopic,
  hoverTopic,
  flowTopic,
  ductTopic,
  driveTopic,
  motorTopic,
  craftTopic,
  printTopic,
  strengthTopic,
  soundTopic,
  balanceTopic,
  benchTopic,
  studyTopic,
  benchDiagnosisTopic,
];
