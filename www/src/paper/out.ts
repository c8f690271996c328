// Ways out of the page other than a file of ours: a picture for a message, and the printer.

/** Dots to a millimeter of paper in a picture: 150 to the inch. */
const DOTS = 150 / 25.4;
/** The most dots along a side that browsers reliably paint. */
const MOST = 4096;

/** A page as a picture. */
export async function picture(svg: string, [width, height]: [number, number]): Promise<Blob> {
  const dots = Math.min(DOTS, MOST / Math.max(width, height));
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image(Math.round(width * dots), Math.round(height * dots));
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.width;
    canvas.height = image.height;
    canvas.getContext('2d')?.drawImage(image, 0, 0, image.width, image.height);
    const made = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
    if (!made) throw new Error('the picture could not be made');
    return made;
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** So much of the bare edge below is left off, millimeters: a page that is full to the last dot spills a blank one. */
const SPARE = 0.5;

const paper = new CSSStyleSheet();

/** Prints the pages shown, each on a paper of its own size. */
export function printAtSize(pages: [number, number][]): void {
  const [width, height] = pages[0] ?? [0, 0];
  paper.replaceSync(
    `@page { size: ${width}mm ${height}mm; margin: 0 }
     @media print {
       .page-of-sheet { width: ${width}mm; height: ${height - SPARE}mm; overflow: hidden }
       .page-of-sheet img { width: ${width}mm; height: ${height}mm }
     }`,
  );
  if (!document.adoptedStyleSheets.includes(paper)) document.adoptedStyleSheets.push(paper);
  const done = () => (document.adoptedStyleSheets = document.adoptedStyleSheets.filter((it) => it !== paper));
  window.addEventListener('afterprint', done, { once: true });
  window.print();
}
