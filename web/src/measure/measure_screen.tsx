import type { Stage } from '../api/schema';
import { Screen } from '../shell/screen';
import { words } from '../words';

export function MeasureScreen({ stage }: { stage: Stage }) {
  return (
    <Screen name="measure" title={words.trade.stage[stage]}>
      {null}
    </Screen>
  );
}
