/**
 * Runout, peak to valley, that a flake of rust under the hat makes: the part rocks on the flake at the flange's edge and
 * on the edge opposite, so it tilts by flake/(2 · flange radius) to either side, and the face swings by that over the
 * radius at which it is read. Plane geometry.
 */
export const runoutOfFlake = (flake_um: number, rotor_radius_mm: number, flange_radius_mm: number): number =>
  (flake_um * rotor_radius_mm) / flange_radius_mm;
