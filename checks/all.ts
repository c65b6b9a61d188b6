import { atmosphereTopic } from './atmosphere.ts';
import type { Topic } from './check.ts';

/** Every topic, in the order of docs/checks.md. */
export const topics: readonly Topic[] = [atmosphereTopic];
