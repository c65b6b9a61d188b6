const LIMITS = [
  'It is air without friction: it follows every wall however sharply that bends, an opening exit too. Where the layer on the lip leaves for good, the real speeds past that point are others; the lip line above is a verdict, not part of the flow.',
  'The rotor is a disc of even pressure rise: no blades, no swirl, no tip gap. The losses of lip, wall and vanes are in the annuli only, one reason why they put less of the thrust on the duct.',
  'Behind the blunt exit edge and the motor it has no wake; the air turns those corners.',
  'Whether a freed layer comes back rests on rules from sections in quiet tunnels; the rougher air of a fan helps it back.',
  'Hover in still air. Wind, the ground and the next fan are not in it.',
];

/** What the potential flow leaves out. */
export const NotKnown = () => (
  <details className="not-known">
    <summary>What this flow does not know</summary>
    <ul>
      {LIMITS.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  </details>
);
