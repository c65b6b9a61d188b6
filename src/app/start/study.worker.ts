import { expose } from 'comlink';
import { propose } from '../../study/propose.ts';

/** The search for a fan takes up to a second; here it does not hold up the page. */
const worker = { propose };
export type StudyWorker = typeof worker;

expose(worker);
