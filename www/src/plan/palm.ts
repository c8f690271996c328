// Which touches are a hand at rest and none of its fingers: what comes while a pen writes or soon after, and what
// lies on the glass broadly. They neither drag nor tap nor zoom.

export interface Contact {
  pointerId: number;
  pointerType: string;
  timeStamp: number;
  width: number;
  height: number;
}

/** So long after a pen was last seen a touch is still the hand that holds it, milliseconds (arbitrary). */
const SOON = 500;

/** A thumb's 14 mm are some 88 css px of a tablet; what is broader is a palm (arbitrary, from that). */
const BROAD = 90;

const broad = ({ width, height }: Contact): boolean => Math.max(width, height) > BROAD;

export class Palms {
  private pens = new Set<number>();
  private seen = -Infinity;
  private resting = new Set<number>();

  /** A pen was seen, down or over the glass. */
  pen({ pointerId, timeStamp }: Contact, down: boolean): void {
    this.seen = timeStamp;
    if (down) this.pens.add(pointerId);
  }

  /** Whether a touch is a palm, or has become one. Once it is, it stays one until it is lifted. */
  rests(touch: Contact): boolean {
    const { pointerId, pointerType, timeStamp } = touch;
    if (pointerType !== 'touch') return false;
    if (this.pens.size > 0 || timeStamp - this.seen < SOON || broad(touch)) this.resting.add(pointerId);
    return this.resting.has(pointerId);
  }

  /** It was lifted or taken away; says whether it was a palm. */
  lifted(contact: Contact): boolean {
    if (this.pens.delete(contact.pointerId)) this.seen = contact.timeStamp;
    return this.resting.delete(contact.pointerId);
  }
}
