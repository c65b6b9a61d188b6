/**
 * Holds the diagnosis against invented rigs of known truth and writes checks/data/diagnosis-cases.csv, which
 * checks/bench-diagnosis.ts judges: `node scripts/cli.mjs --run scripts/diagnosis-cases.ts` (some three minutes).
 */
import { writeFileSync } from 'node:fs';
import { casesTable, KNOWN_CASES, LACKING_CASES } from '../checks/diagnosis-cases.ts';

const file = new URL('../checks/data/diagnosis-cases.csv', import.meta.url);
writeFileSync(file, casesTable(KNOWN_CASES, LACKING_CASES));
console.log(`${KNOWN_CASES + LACKING_CASES} cases written to checks/data/diagnosis-cases.csv`);
