/** What stands before every run of a fan at the bench. Common practice, no source; local rules come first. */
export const BENCH_CAUTIONS: readonly (readonly [what: string, text: string])[] = [
  ['Tied down', 'Craft or fan is fastened so that it cannot lift off, walk or turn over at full throttle.'],
  ['Shield', 'A clear, stiff screen stands between the rotor and you; nobody is in the plane of the rotor.'],
  ['Eyes and ears', 'Eye protection is on. Small fast fans are loud enough to hurt: protect your ears too.'],
  ['Fingers', 'Hair, sleeves, leads and tools are clear. The battery comes out before any touch of a rotor.'],
  [
    'Battery',
    'Undamaged, charged by its own rules, on a surface that does not burn, plugged in last, never left alone.',
  ],
  ['Distance', 'You reach the throttle and the scale from an arm’s length and more, out of the jet.'],
];

/** The first time a rotor turns. Common practice, no source. */
export const FIRST_SPIN_UP: readonly string[] = [
  'Battery out. Turn the rotor by hand through a full turn: it clears the wall all round and nothing scrapes.',
  'Look at every blade root in good light; a crack or a pale line means a new rotor.',
  'See that the rounded edges lead and the hollow sides of the blades face the exit.',
  'Everything tied down, shield up, eye protection on, others out of the room or behind you.',
  'Throttle at zero, plug in last. Idle for five seconds; listen for scraping and rattling, then stop.',
  'Battery out. Touch motor and controller: warm is well, too hot to hold is not.',
  'Again at a quarter of the throttle for ten seconds, and look at the roots again.',
  'Half, then full, a few seconds each. Stop at once at a new noise, smell or shake.',
];
