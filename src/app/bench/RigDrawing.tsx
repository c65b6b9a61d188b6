import type { BenchRig } from '../../project/bench.ts';

/** A fan of 34 px: duct, rotor, and the jet on the side it blows to. */
function Fan({ x, y, blows }: { readonly x: number; readonly y: number; readonly blows: 'up' | 'down' }) {
  const s = blows === 'down' ? 1 : -1;
  return (
    <g transform={`translate(${x} ${y}) scale(1 ${s})`}>
      <path className="rig-part" d="M-17 -9q-4 0 -4 4v13h4zM17 -9q4 0 4 4v13h-4z" />
      <path className="rig-blade" d="M-16 -2L16 -2" />
      <path className="rig-part" d="M-4 -4h8v10h-8z" />
      <path className="rig-jet" d="M-11 13v12M0 13v14M11 13v12M-3 23l3 5 3-5" />
    </g>
  );
}

const Scale = ({
  x,
  y = 82,
  width = 70,
}: {
  readonly x: number;
  readonly y?: number;
  readonly width?: number;
}) => (
  <>
    <path className="rig-part" d={`M${x - width / 2} ${y}h${width}v4h-${width}z`} />
    <path className="rig-part" d={`M${x - 26} ${y + 4}h52l5 12h-62z`} />
    <path className="rig-show" d={`M${x - 12} ${y + 8}h24v5h-24z`} />
  </>
);

/** How each rig stands, from the side. */
export function RigDrawing({ kind }: { readonly kind: BenchRig['kind'] }) {
  return (
    <svg className="rig-drawing" viewBox="0 0 160 104" aria-hidden="true">
      <path className="rig-table" d="M4 98.500H156" />
      {kind === 'craft on the scale' && (
        <>
          <Fan x={46} y={22} blows="down" />
          <Fan x={114} y={22} blows="down" />
          <path className="rig-part" d="M66 20h28v8h-28zM77 28h6v54h-6z" />
          <Scale x={80} width={34} />
          <path className="rig-tie" d="M68 28L48 98M92 28L112 98" />
        </>
      )}
      {kind === 'fan pressing down' && (
        <>
          <Fan x={80} y={32} blows="up" />
          <path className="rig-part" d="M60 40L70 82h4L64 40zM100 40L90 82h-4L96 40z" />
          <Scale x={80} width={40} />
        </>
      )}
      {kind === 'fan lifting off' && (
        <>
          <path className="rig-part" d="M28 14h4v68h-4zM28 14h54v4h-54z" />
          <Fan x={80} y={26} blows="down" />
          <path className="rig-part" d="M22 70h20v12h-20z" />
          <Scale x={32} width={44} />
          <path className="rig-tie" d="M30 20L8 98" />
        </>
      )}
      {kind === 'lever' && (
        <>
          <Fan x={34} y={36} blows="up" />
          <path className="rig-part" d="M24 44h110v5h-110z" />
          <path className="rig-part" d="M86 49l8 49h-16z" />
          <path className="rig-part" d="M122 49h4v33h-4z" />
          <Scale x={124} width={30} />
        </>
      )}
      {kind === 'load cell' && (
        <>
          <path className="rig-part" d="M134 10h12v88h-12z" />
          <path className="rig-show" d="M84 38h50v12h-50z" />
          <circle className="rig-hole" cx={104} cy={44} r={4} />
          <circle className="rig-hole" cx={114} cy={44} r={4} />
          <Fan x={64} y={40} blows="down" />
        </>
      )}
    </svg>
  );
}
