import type { Fan } from '../../project/schema.ts';

/** The stations of a blade to read. */
export function StationList({ fan }: { readonly fan: Fan }) {
  const { hubDiameter_mm: hub, tipDiameter_mm: tip } = fan;
  return (
    <div className="scroll" tabIndex={0} role="region" aria-label="Stations of the drawn blade">
      <table className="stations">
        <thead>
          <tr>
            <th scope="col">
              Radius <small>mm</small>
            </th>
            <th scope="col">
              Chord <small>mm</small>
            </th>
            <th scope="col">
              Angle <small>to the disc</small>
            </th>
            <th scope="col">
              Thickness <small>over chord</small>
            </th>
            <th scope="col">
              Camber <small>over chord</small>
            </th>
          </tr>
        </thead>
        <tbody>
          {fan.blade.map((s) => (
            <tr key={s.span_ratio}>
              <th scope="row">{((hub + s.span_ratio * (tip - hub)) / 2).toFixed(1)}</th>
              <td>{s.chord_mm.toFixed(1)}</td>
              <td>{s.angle_deg.toFixed(1)}°</td>
              <td>{s.thickness_ratio.toFixed(3)}</td>
              <td>{s.camber_ratio.toFixed(3)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
