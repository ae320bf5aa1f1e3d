import { Choice } from '../shell/choice';
import { words } from '../words';
import type { Corners } from './dials';
import type { edgesOf } from './equipment';

interface Props {
  faces: readonly (keyof Corners)[];
  edges: ReturnType<typeof edgesOf>;
  corners: Corners;
  onCorners: (corners: Corners) => void;
}

/** Which corner of which insert cuts each face; a chipped one is shown and cannot be taken. */
export function CornerChoice({ faces, edges, corners, onCorners }: Props) {
  const { guide } = words;
  const options = edges.map(({ insert, corner }) => ({
    value: corner.id,
    label: guide.corner(insert.name, corner.number),
    note: ` ${guide.condition[corner.condition]}, ${guide.cut_m((corner.used_m ?? 0).toFixed(0))}`,
    disabled: corner.condition === 'chipped',
  }));
  return (
    <>
      {faces.map((face) => (
        <Choice
          key={face}
          shown
          label={guide.corner_choose[face]}
          value={corners[face] ?? ''}
          options={options}
          onChange={(id) => onCorners({ ...corners, [face]: id })}
        />
      ))}
    </>
  );
}
