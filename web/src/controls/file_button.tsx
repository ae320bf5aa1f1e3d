import type { ComponentChildren } from 'preact';

interface FileButtonProps {
  /** Beside `button`. */
  class?: string;
  /** Endings and types that are offered first. */
  accept: string;
  onFile: (file: File) => void;
  children: ComponentChildren;
}

/** A button that asks for a file; the same file may be chosen again. */
export function FileButton({ class: more = '', accept, onFile, children }: FileButtonProps) {
  return (
    <label class={`button ${more}`.trim()}>
      {children}
      <input
        class="heard"
        type="file"
        accept={accept}
        onChange={(event) => {
          const [chosen] = event.currentTarget.files ?? [];
          if (chosen) onFile(chosen);
          event.currentTarget.value = '';
        }}
      />
    </label>
  );
}
