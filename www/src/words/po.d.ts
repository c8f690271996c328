/** A catalogue of messages: each English text with its wording; of one that counts, for one and for many. */
declare module '*.po' {
  const words: Readonly<Record<string, string | readonly string[]>>;
  export default words;
}
