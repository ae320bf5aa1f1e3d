import { useEffect, useState } from 'preact/hooks';

/** Whether there is room for more than one block beside another; below it, one thing fills the screen. */
const WIDE = '(min-width: 48rem)';

export function useWide(): boolean {
  const [wide, setWide] = useState(() => window.matchMedia(WIDE).matches);
  useEffect(() => {
    const query = window.matchMedia(WIDE);
    const follow = () => setWide(query.matches);
    query.addEventListener('change', follow);
    return () => query.removeEventListener('change', follow);
  }, []);
  return wide;
}
