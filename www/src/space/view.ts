// What is seen: one canvas, painted when something changed and at no other time. Whoever makes a view ends it.
import { AmbientLight, BasicShadowMap, ColorManagement, DirectionalLight, HemisphereLight, LinearSRGBColorSpace, PerspectiveCamera, Plane, Scene, Vector3, WebGLRenderer } from 'three';
import { drawnOf, forget, groundAt, lightOn, stageOf } from './bodies.ts';
import { eyeOf, firstLook, type Look, type Place } from './camera.ts';
import { SKY } from './colors.ts';
import { PLAIN_LIGHT, type Toward } from './light.ts';
import type { SpaceModel } from './model.ts';

/** A hand that rests so long has stopped, milliseconds. */
const REST = 200;
/** More pixels than this to one of the page's are not seen. */
const FINEST = 2;
/** The share of pixels each way that the processor draws while a hand moves. */
const COARSE = 0.6;
/** How high above where one stands the next step may be, meters. */
const STEP_UP = 0.7;

/** How many pixels of a view that stands still go to one of the page's. */
export const finestOf = (byProcessor: boolean): number => (byProcessor ? 1 : Math.min(window.devicePixelRatio || 1, FINEST));

/** Whether this browser draws in three dimensions at all, and whether the processor has to do it. */
export function whatDraws(): 'nothing' | 'processor' | 'graphics' {
  try {
    const context = document.createElement('canvas').getContext('webgl2');
    if (!context) return 'nothing';
    const known = context.getExtension('WEBGL_debug_renderer_info');
    const name = known ? String(context.getParameter(known.UNMASKED_RENDERER_WEBGL)) : '';
    context.getExtension('WEBGL_lose_context')?.loseContext();
    return /swiftshader|llvmpipe|software|basic render/i.test(name) ? 'processor' : 'graphics';
  } catch {
    return 'nothing';
  }
}

export interface SpaceView {
  canvas: HTMLCanvasElement;
  look: Look;
  /** Looks from elsewhere; `moving` says that more of it is to come. */
  setLook: (look: Look, moving?: boolean) => void;
  show: (stage: number, cut: boolean) => void;
  light: (sun: Toward | null, shadows: boolean) => void;
  /** The ground under a place, no higher than a step above a level. */
  ground: (x: number, y: number, from: number) => number | undefined;
  /** Where a place of the scene is on the canvas, css pixels; nothing behind the eye. */
  onCanvas: (at: Place) => { x: number; y: number } | undefined;
  /** How many meters a css pixel spans at what is looked at. */
  metersToPixel: () => number;
  end: () => void;
}

interface Told {
  /** After every frame; `moving` while a hand moves. */
  painted: (triangles: number, moving: boolean) => void;
  /** The context was lost: nothing can be drawn any more. */
  lost: () => void;
}

/** Lays a view into a box. Throws where none can be made. */
export function openView(box: HTMLElement, model: SpaceModel, byProcessor: boolean, told: Told): SpaceView {
  // Colors are the plan's own, as they are: nothing turns them.
  ColorManagement.enabled = false;
  const canvas = document.createElement('canvas');
  const renderer = new WebGLRenderer({ canvas, antialias: !byProcessor, powerPreference: 'high-performance', stencil: false });
  renderer.outputColorSpace = LinearSRGBColorSpace;
  renderer.localClippingEnabled = true;
  renderer.setClearColor(getComputedStyle(document.documentElement).getPropertyValue('--sky').trim() || SKY);
  renderer.shadowMap.type = BasicShadowMap;
  renderer.shadowMap.autoUpdate = false;
  const { reach, section } = model.record;
  const scene = new Scene();
  scene.matrixAutoUpdate = false;
  const camera = new PerspectiveCamera(42, 1, 0.15, 600);
  camera.up.set(0, 0, 1);
  const drawn = drawnOf(model);
  for (const { object, edges } of drawn.bodies) scene.add(object, ...(edges ? [edges] : []));
  for (const { object } of drawn.lines) scene.add(object);
  const lamp = lampOf(scene, reach);
  const plane = section ? cutPlane(section) : undefined;

  let frame = 0;
  let resting: ReturnType<typeof setTimeout> | undefined;
  let moving = false;
  let ended = false;
  const ask = (): void => {
    if (!ended && frame === 0) frame = requestAnimationFrame(paint);
  };
  const paint = (): void => {
    frame = 0;
    const [width, height] = [box.clientWidth || 1, box.clientHeight || 1];
    const ratio = moving ? (byProcessor ? COARSE : 1) : finestOf(byProcessor);
    const had = renderer.getPixelRatio();
    if (had !== ratio) renderer.setPixelRatio(ratio);
    if (had !== ratio || canvas.clientWidth !== width || canvas.clientHeight !== height) renderer.setSize(width, height);
    camera.aspect = width / height;
    // The same width of the work is seen on a narrow screen.
    camera.fov = camera.aspect < 1 ? Math.min(80, 42 / camera.aspect ** 0.75) : 42;
    const { eye, to } = eyeOf(view.look);
    camera.position.set(...eye);
    camera.lookAt(...to);
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
    renderer.render(scene, camera);
    told.painted(renderer.info.render.triangles, moving);
  };
  const lost = (event: Event): void => {
    event.preventDefault();
    if (!ended) told.lost();
  };
  canvas.addEventListener('webglcontextlost', lost);
  const sizes = new ResizeObserver(ask);
  sizes.observe(box);
  box.prepend(canvas);

  const at = new Vector3();
  const view: SpaceView = {
    canvas,
    look: firstLook(reach),
    setLook: (look, more = false) => {
      view.look = look;
      if (more) {
        moving = true;
        clearTimeout(resting);
        resting = setTimeout(() => {
          moving = false;
          ask();
        }, REST);
      }
      ask();
    },
    show: (stage, cut) => {
      stageOf(drawn, stage, cut ? plane : undefined);
      renderer.shadowMap.needsUpdate = renderer.shadowMap.enabled;
      ask();
    },
    light: (sun, shadows) => {
      const toward = sun ?? PLAIN_LIGHT;
      lightOn(drawn, toward, shadows);
      lamp.set(toward, shadows);
      renderer.shadowMap.enabled = shadows;
      renderer.shadowMap.needsUpdate = shadows;
      ask();
    },
    ground: (x, y, from) => groundAt(drawn, x, y, from + STEP_UP),
    onCanvas: (place) => {
      at.set(...place).applyMatrix4(camera.matrixWorldInverse);
      if (at.z > -0.1) return undefined;
      at.applyMatrix4(camera.projectionMatrix);
      return { x: ((at.x + 1) / 2) * box.clientWidth, y: ((1 - at.y) / 2) * box.clientHeight };
    },
    metersToPixel: () => {
      const far = view.look.kind === 'orbit' ? view.look.distance : 1;
      return (2 * far * Math.tan((camera.fov * Math.PI) / 360)) / (box.clientHeight || 1);
    },
    end: () => {
      ended = true;
      cancelAnimationFrame(frame);
      clearTimeout(resting);
      sizes.disconnect();
      canvas.removeEventListener('webglcontextlost', lost);
      forget(drawn);
      lamp.end();
      renderer.dispose();
      renderer.forceContextLoss();
      canvas.remove();
    },
  };
  return view;
}

/** What a cut leaves: the left of its line. */
function cutPlane([[ax, ay], [bx, by]]: [[number, number], [number, number]]): Plane {
  const long = Math.hypot(bx - ax, by - ay) || 1;
  const normal = new Vector3(-(by - ay) / long, (bx - ax) / long, 0);
  return new Plane(normal, -(normal.x * ax + normal.y * ay));
}

/** The lamp that stands for the sun where shadows are wanted, and the light of the sky with it. */
function lampOf(scene: Scene, reach: number) {
  const sun = new DirectionalLight('#fff8ea', 0);
  const sky = new HemisphereLight('#f3f7ff', '#b9a98a', 0);
  const rest = new AmbientLight('#ffffff', 0);
  const round = reach * 3 + 6;
  Object.assign(sun.shadow.camera, { left: -round, right: round, top: round, bottom: -round, near: 1, far: round * 6 });
  sun.shadow.mapSize.set(2048, 2048);
  sun.shadow.bias = -0.0006;
  sun.shadow.normalBias = 0.04;
  scene.add(sun, sun.target, sky, rest);
  return {
    set: ([x, y, z]: Toward, shadows: boolean): void => {
      sun.castShadow = shadows;
      sun.visible = sky.visible = rest.visible = shadows;
      sun.intensity = Math.PI * 0.5 * Math.min(1, Math.max(0, z) * 3 + 0.1);
      sky.intensity = Math.PI * 0.3;
      rest.intensity = Math.PI * 0.3;
      sun.position.set(x * round * 3, y * round * 3, Math.max(z, 0.01) * round * 3);
      for (const it of [sun, sun.target]) it.updateMatrixWorld();
    },
    end: (): void => sun.dispose(),
  };
}
