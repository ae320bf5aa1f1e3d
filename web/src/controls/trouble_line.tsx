/** Why something came to nothing, said at once; nothing where there is nothing to say. */
export function TroubleLine({ text }: { text: string | null | undefined }) {
  if (!text) return null;
  return (
    <p class="trouble" role="alert">
      {text}
    </p>
  );
}
