import type { Assessment } from '../../assess/types.ts';
import type { Project } from '../../project/schema.ts';
import { formatNumber } from '../../quantities/format.ts';

interface Props {
  readonly project: Project;
  readonly assessment: Assessment | null;
}

/** What a drawing says of itself in its corner. */
export function TitleBlock({ project, assessment }: Props) {
  const { brief, builds, printer, material } = project;
  const build = builds.at(-1);
  return (
    <dl className="title-block">
      <div className="whole">
        <dt>Drawing</dt>
        <dd>{project.name || 'unnamed'}, one fan</dd>
      </div>
      <div>
        <dt>Build</dt>
        <dd>{build ? build.name || build.id : 'as it stands now'}</dd>
      </div>
      <div>
        <dt>Print</dt>
        <dd>
          {material.name}, {printer.layer_mm} mm
        </dd>
      </div>
      <div className="whole">
        <dt>Air</dt>
        <dd>
          {brief.airTemperature_C} °C, {brief.altitude_m} m up
          {assessment && <>, {formatNumber(assessment.air.density_kgpm3)} kg/m³</>}
        </dd>
      </div>
    </dl>
  );
}
