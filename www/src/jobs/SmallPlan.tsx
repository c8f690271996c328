// The small plan of a job, or an empty sheet where none was painted yet.

export function SmallPlan({ src }: { src: string }) {
  return src === '' ? <span class="small-plan" aria-hidden="true" /> : <img class="small-plan" src={src} alt="" width={160} height={120} />;
}
