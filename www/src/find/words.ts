// Whether a text has every word that was typed. Pure.

/** What tells whether all typed words stand somewhere in a text, whatever the case of their letters. */
export function everyWord(typed: string): (text: string) => boolean {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  return (text) => {
    const low = text.toLowerCase();
    return words.every((word) => low.includes(word));
  };
}
