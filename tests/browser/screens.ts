// The screens the page is made for: a laptop, a tablet in the yard, a phone.
export const SCREENS = [
  { name: '1280x800', viewport: { width: 1280, height: 800 }, hasTouch: false },
  { name: '1024x768', viewport: { width: 1024, height: 768 }, hasTouch: true },
  { name: '390x844', viewport: { width: 390, height: 844 }, hasTouch: true },
] as const;
