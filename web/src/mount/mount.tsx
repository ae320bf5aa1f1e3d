export function MountScreen() {
  return null;
}
