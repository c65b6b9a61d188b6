/** Builds the page if anything it is made of has changed. */
import { buildPage } from './page.mjs';

const built = await buildPage();
console.log(built ? 'page: built into dist-page' : 'page: up to date');
