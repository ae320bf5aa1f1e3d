import { useState } from 'preact/hooks';
import type { StudyGroup } from '../api/schema';
import { Figure, useWidth } from '../pictures/figure';
import { shortened } from '../pictures/shortened';
import { words } from '../words';
import { axisOver, type Deviations, digits, offOf, shiftOf, tickText } from './deviations';
import { markOf } from './marks';
import { Sideways } from './sideways';

/** What the pictures call things; `people` in the study's order, so that a shape stays a person's own. */
export interface Names {
  part: (id: string) => string;
  person: (id: string) => string;
  /** Place in the study, from 0. */
  place: (person_id: string) => number;
}

const LEFT = 44;
const RIGHT = 10;
const TOP = 32;
const UNIT_AT = 12;
const HEIGHT = 300;
const BOTTOM = 30;
const LEAST_COLUMN = 44;
/** Between two people side by side, as far as the screen can be moved along. */
const LEAST_APART = 7;

export function MarkShape({
  place,
  x = 0,
  y = 0,
  size = 10,
}: {
  place: number;
  x?: number;
  y?: number;
  size?: number;
}) {
  const mark = markOf(place, size);
  return (
    <g transform={`translate(${x} ${y})`} class={`person-mark mark-${mark.look}`}>
      <path d={mark.d} />
      {mark.look === 'dotted' ? <circle r="1.6" /> : null}
    </g>
  );
}

interface Props {
  deviations: Deviations;
  names: Names;
  lit: string | null;
}

/** The frame over the parts that both pictures share. */
function useFrame(deviations: Deviations, values: readonly number[], side_by_side: number) {
  const [frame, seen] = useWidth(640);
  const least_column = Math.max(LEAST_COLUMN, side_by_side * LEAST_APART);
  const width = Math.max(seen, LEFT + RIGHT + least_column * deviations.parts.length);
  const axis = axisOver(values);
  const column = (width - LEFT - RIGHT) / Math.max(1, deviations.parts.length);
  const x = (part_id: string, shift = 0) => LEFT + column * (deviations.parts.indexOf(part_id) + 0.5 + shift);
  const y = (um: number) => TOP + ((axis.high - um) / (axis.high - axis.low)) * (HEIGHT - TOP - BOTTOM);
  return { frame, width, axis, column, x, y };
}

type Framed = ReturnType<typeof useFrame>;

function PartsGrid({ framed, deviations, names }: { framed: Framed; deviations: Deviations; names: Names }) {
  const { axis, width, column, x, y } = framed;
  return (
    <g>
      <text class="trace-word" x={LEFT - 6} y={UNIT_AT} text-anchor="end">
        {words.studies.pictures.axis}
      </text>
      {axis.ticks.map((um) => (
        <g key={um}>
          <path d={`M${LEFT} ${y(um)}H${width - RIGHT}`} class={um === 0 ? 'study-zero' : 'trace-grid'} />
          <text class="trace-word" x={LEFT - 6} y={y(um) + 4} text-anchor="end">
            {tickText(um, axis)}
          </text>
        </g>
      ))}
      {deviations.parts.map((id, i) => (
        <g key={id}>
          {i > 0 ? <path class="study-between" d={`M${x(id, -0.5)} ${TOP}V${HEIGHT - BOTTOM}`} /> : null}
          <text class="trace-word" x={x(id)} y={HEIGHT - 8} text-anchor="middle">
            {shortened(names.part(id), column)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** Every reading on its part, each person by a shape of their own. */
export function ByPart({ deviations, names, lit }: Props) {
  const said = words.studies.pictures;
  const { readings, people, parts } = deviations;
  const framed = useFrame(
    deviations,
    readings.map((one) => one.um),
    people.length,
  );
  const { x, y } = framed;
  const offs = readings.map((one) => one.um);
  return (
    <Figure
      name={said.by_part}
      kind="by-part"
      says={said.says_parts(
        parts.length,
        people.length,
        digits(Math.min(0, ...offs), true),
        digits(Math.max(0, ...offs), true),
      )}
      table={{
        head: [said.part, said.person, said.reading],
        rows: parts.flatMap((part_id) =>
          people.map((person_id) => [
            names.part(part_id),
            names.person(person_id),
            readings
              .filter((one) => one.part_id === part_id && one.person_id === person_id)
              .map((one) => digits(one.um, true))
              .join('  '),
          ]),
        ),
      }}
    >
      <Sideways frame={framed.frame} label={said.by_part}>
        <svg width={framed.width} height={HEIGHT} aria-hidden="true">
          <PartsGrid framed={framed} deviations={deviations} names={names} />
          {readings.map((one, i) => (
            <g key={i} class={dimmed(lit, one.person_id)}>
              <MarkShape
                place={names.place(one.person_id)}
                x={x(one.part_id, shiftOf(people.indexOf(one.person_id), people.length))}
                y={y(one.um)}
                size={people.length > 12 ? 8 : 10}
              />
            </g>
          ))}
        </svg>
      </Sideways>
      <p class="small soft">{deviations.from === 'reference' ? said.by_part_lead : said.by_part_lead_mean}</p>
    </Figure>
  );
}

const dimmed = (lit: string | null, person_id: string) => (lit === null ? '' : lit === person_id ? 'lit' : 'dimmed');

const DASHES = ['', '7 4', '2 4', '10 3 2 3', '12 5'];

/** The mean of each person on each part: side by side where all differ alike, crossing where they do not. */
export function Interaction({ deviations, names, lit }: Props) {
  const said = words.studies.pictures;
  const { means, people, parts } = deviations;
  const framed = useFrame(
    deviations,
    means.map((one) => one.um),
    1,
  );
  const { x, y } = framed;
  const of = (person_id: string) =>
    parts.flatMap((part_id) => means.filter((one) => one.part_id === part_id && one.person_id === person_id));
  const ordered = lit ? [...people.filter((id) => id !== lit), lit] : people;
  return (
    <Figure
      name={said.lines}
      kind="interaction"
      says={people
        .map((id) =>
          said.says_lines(
            names.person(id),
            of(id)
              .map((one) => digits(one.um, true))
              .join(', '),
          ),
        )
        .join('. ')}
      table={{
        head: [said.person, ...parts.map((id) => said.in_um(names.part(id)))],
        rows: people.map((id) => [names.person(id), ...of(id).map((one) => digits(one.um, true))]),
      }}
    >
      <Sideways frame={framed.frame} label={said.lines}>
        <svg width={framed.width} height={HEIGHT} aria-hidden="true">
          <PartsGrid framed={framed} deviations={deviations} names={names} />
          {ordered.map((id) => (
            <g key={id} class={dimmed(lit, id)}>
              <path
                class="study-line-of"
                stroke-dasharray={DASHES[names.place(id) % DASHES.length]}
                d={`M${of(id)
                  .map((one) => `${x(one.part_id)} ${y(one.um)}`)
                  .join('L')}`}
              />
              {of(id).map((one) => (
                <MarkShape key={one.part_id} place={names.place(id)} x={x(one.part_id)} y={y(one.um)} />
              ))}
            </g>
          ))}
        </svg>
      </Sideways>
      <p class="small soft">{deviations.from === 'reference' ? said.lines_lead : said.lines_lead_mean}</p>
    </Figure>
  );
}

const ROW = 44;
const HEAD = 34;
const NAME = 150;
const NARROW = 560;
const UNIT_WIDTH = 24;

/** Each person, or instrument, on a line: how far off, and how far spread, with intervals. */
export function ByGroup({
  groups,
  name,
  placeOf,
}: {
  groups: readonly StudyGroup[];
  name: (id: string) => string;
  placeOf: (id: string) => number;
}) {
  const said = words.studies.pictures;
  const [frame, width] = useWidth(640);
  const narrow = width < NARROW;
  const of = groups.some((one) => one.bias_um !== null) ? said.bias : said.offset;
  const rows = groups.map((one) => ({
    id: one.id,
    off: offOf(one),
    spread: one.repeatability_sd_um,
    within: one.repeatability_interval_um ?? null,
  }));
  const left = narrow ? 8 : NAME;
  const middle = left + (width - left) / 2;
  const offs = rows.flatMap((one) =>
    one.off ? [one.off.value, one.off.interval?.low95 ?? 0, one.off.interval?.high95 ?? 0] : [],
  );
  const spreads = rows.flatMap((one) => (one.spread === null ? [] : [one.spread, one.within?.high95 ?? 0]));
  const panels = [
    { label: of, axis: axisOver(offs, narrow ? 4 : 6), from: left + 12, to: middle - 22 },
    { label: said.spread, axis: axisOver(spreads, narrow ? 4 : 6), from: middle + 22, to: width - 16 },
  ];
  const [offPanel, spreadPanel] = panels as [(typeof panels)[0], (typeof panels)[0]];
  const along = ({ axis, from, to }: (typeof panels)[0], um: number) =>
    from + ((um - axis.low) / (axis.high - axis.low)) * (to - from);
  const step = narrow ? ROW + 18 : ROW;
  const height = HEAD + step * rows.length + 30;
  const mid = (i: number) => HEAD + step * i + (narrow ? 40 : ROW / 2);
  const interval = (one: { low95: number; high95: number } | null) =>
    one ? ` (${digits(one.low95, true)} … ${digits(one.high95, true)})` : '';
  return (
    <Figure
      name={said.by_person}
      kind="by-person"
      says={rows.map((one) => said.says(name(one.id), one.off ? digits(one.off.value, true) : '–')).join('. ')}
      table={{
        head: [said.person, said.in_um(of), said.in_um(said.spread)],
        rows: rows.map((one) => [
          name(one.id),
          one.off ? digits(one.off.value, true) + interval(one.off.interval) : '–',
          one.spread === null ? '–' : digits(one.spread) + interval(one.within),
        ]),
      }}
    >
      <div ref={frame}>
        <svg width={width} height={height} aria-hidden="true">
          {panels.map((panel) => (
            <g key={panel.label}>
              <text class="trace-word" x={panel.from} y="14">
                {said.in_um(shortened(panel.label, panel.to - panel.from - UNIT_WIDTH))}
              </text>
              {panel.axis.ticks.map((um) => (
                <g key={um}>
                  <path
                    d={`M${along(panel, um)} ${HEAD - 8}V${height - 26}`}
                    class={um === 0 ? 'study-zero' : 'trace-grid'}
                  />
                  <text class="trace-word" x={along(panel, um)} y={height - 8} text-anchor="middle">
                    {tickText(um, panel.axis)}
                  </text>
                </g>
              ))}
            </g>
          ))}
          {rows.map((one, i) => (
            <g key={one.id}>
              <text class="study-name-of" x={narrow ? left : 0} y={narrow ? mid(i) - 18 : mid(i) + 5}>
                {shortened(name(one.id), narrow ? width : NAME)}
              </text>
              {one.off?.interval ? (
                <path
                  class="study-interval"
                  d={`M${along(offPanel, one.off.interval.low95)} ${mid(i)}H${along(offPanel, one.off.interval.high95)}`}
                />
              ) : null}
              {one.off ? (
                <MarkShape place={placeOf(one.id)} x={along(offPanel, one.off.value)} y={mid(i)} size={12} />
              ) : null}
              {one.spread !== null && one.within ? (
                <path
                  class="study-interval"
                  d={`M${along(spreadPanel, one.within.low95)} ${mid(i)}H${along(spreadPanel, one.within.high95)}`}
                />
              ) : null}
              {one.spread === null ? null : (
                <MarkShape place={placeOf(one.id)} x={along(spreadPanel, one.spread)} y={mid(i)} size={12} />
              )}
            </g>
          ))}
        </svg>
      </div>
      <p class="small soft">{said.by_person_lead}</p>
    </Figure>
  );
}

/** Which shape is whose; pressing one brings its person out in both pictures over the parts. */
export function Legend({
  people,
  names,
  lit,
  onLit,
}: {
  people: readonly string[];
  names: Names;
  lit: string | null;
  onLit: (id: string | null) => void;
}) {
  return (
    <fieldset class="study-legend">
      <legend class="small soft">{words.studies.pictures.light}</legend>
      <button type="button" aria-pressed={lit === null} onClick={() => onLit(null)}>
        {words.studies.pictures.everybody}
      </button>
      {people.map((id) => (
        <button key={id} type="button" aria-pressed={lit === id} onClick={() => onLit(lit === id ? null : id)}>
          <svg width="18" height="18" viewBox="-9 -9 18 18" aria-hidden="true">
            <MarkShape place={names.place(id)} size={12} />
          </svg>
          {names.person(id)}
        </button>
      ))}
    </fieldset>
  );
}

/** The pictures over the parts, with one legend. */
export function PicturesOverParts({
  deviations,
  names,
  first,
}: {
  deviations: Deviations;
  names: Names;
  first: string | null;
}) {
  const [lit, setLit] = useState(first);
  return (
    <>
      <Legend people={deviations.people} names={names} lit={lit} onLit={setLit} />
      <h3>{words.studies.pictures.by_part}</h3>
      <ByPart deviations={deviations} names={names} lit={lit} />
      <h3>{words.studies.pictures.lines}</h3>
      <Interaction deviations={deviations} names={names} lit={lit} />
    </>
  );
}
