import type { ComponentType } from 'preact';
import { MeasureScreen } from './measure/measure_screen';

/**
 * Which screen stands at which address. What a colon names comes to the screen as a property. Under `/jobs/:number/`
 * the job is read before its screen is shown, and the step path stands over it.
 */
export type Room = ComponentType<Record<string, string>>;

const Before: Room = () => <MeasureScreen stage="before" />;
const After: Room = () => <MeasureScreen stage="after" />;

export const screens: readonly (readonly [pattern: string, screen: Room])[] = [
  ['/jobs/:number/before', Before],
  ['/jobs/:number/after', After],
];
