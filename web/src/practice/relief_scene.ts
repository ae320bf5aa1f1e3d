import {
  AmbientLight,
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  Mesh,
  MeshStandardMaterial,
  PerspectiveCamera,
  Scene,
  WebGLRenderer,
} from 'three';
import type { FacePicture } from './model';
import { eyeDistance, FIELD_DEG } from './relief_eye';
import { meanHeight, ringIndices, ringPlaces, shareOf } from './relief_grid';

/** The face as a relief in a canvas. It is drawn anew when something is changed, and never by itself. */
export interface Relief {
  show: (picture: FacePicture, times: number) => void;
  look: (round_deg: number, up_deg: number) => void;
  /** Turns the face about its axis. */
  turn: (deg: number) => void;
  resize: (width: number, height: number) => void;
  /** Share of each side's pixels that is drawn, above 0 to 1. */
  sharpen: (share: number) => void;
  /** Gives back all that it holds; nothing can be drawn in this canvas any more. */
  close: () => void;
}

export interface ReliefColours {
  low: string;
  mid: string;
  high: string;
}

/** Throws where the browser has no WebGL. */
export function openRelief(canvas: HTMLCanvasElement, colours: ReliefColours): Relief {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  const scene = new Scene();
  const camera = new PerspectiveCamera(FIELD_DEG);
  camera.up.set(0, 0, 1);
  const lamp = new DirectionalLight(0xffffff, 2.6);
  lamp.position.set(-2, 1.4, 1.2);
  scene.add(new AmbientLight(0xffffff, 0.9), lamp);
  const material = new MeshStandardMaterial({ vertexColors: true, roughness: 0.55, metalness: 0.2, side: DoubleSide });
  const tones = { low: new Color(colours.low), mid: new Color(colours.mid), high: new Color(colours.high) };
  let mesh: Mesh | null = null;
  let turned = 0;
  const eye = { round: 0, up: Math.PI / 2 };
  const draw = () => renderer.render(scene, camera);

  const see = () => {
    const { middle, away, near, far } = eyeDistance(...heightsOf(mesh), camera.aspect);
    Object.assign(camera, { near, far });
    camera.updateProjectionMatrix();
    camera.position.set(
      away * Math.cos(eye.up) * Math.sin(eye.round),
      -away * Math.cos(eye.up) * Math.cos(eye.round),
      middle + away * Math.sin(eye.up),
    );
    camera.lookAt(0, 0, middle);
    draw();
  };
  const show = (picture: FacePicture, times: number) => {
    const old = mesh;
    mesh = new Mesh(faceOf(picture, times, tones), material);
    if (old) {
      scene.remove(old);
      old.geometry.dispose();
    }
    mesh.rotation.z = turned;
    scene.add(mesh);
    see();
  };
  const turn = (deg: number) => {
    turned = (-deg * Math.PI) / 180;
    if (mesh) mesh.rotation.z = turned;
    draw();
  };
  const look = (round_deg: number, up_deg: number) => {
    eye.round = (round_deg * Math.PI) / 180;
    eye.up = (up_deg * Math.PI) / 180;
    see();
  };
  let sharpness = 1;
  const ratio = () => sharpness * Math.min(2, window.devicePixelRatio || 1);
  const sharpen = (share: number) => {
    sharpness = share;
    renderer.setPixelRatio(ratio());
    draw();
  };
  const resize = (width: number, height: number) => {
    renderer.setPixelRatio(ratio());
    renderer.setSize(width, height, false);
    camera.aspect = width / Math.max(1, height);
    see();
  };
  const close = () => {
    mesh?.geometry.dispose();
    material.dispose();
    renderer.dispose();
    // A browser keeps some sixteen drawing contexts, and takes the oldest away for the next; a canvas gone keeps its own.
    renderer.forceContextLoss();
  };
  return { show, look, turn, resize, sharpen, close };
}

/** Lowest and highest place that is drawn, in outer radii. */
function heightsOf(mesh: Mesh | null): [low: number, high: number] {
  const box = mesh?.geometry.boundingBox;
  return box ? [box.min.z, box.max.z] : [0, 0];
}

type Tones = Record<'low' | 'mid' | 'high', Color>;

function faceOf(picture: FacePicture, times: number, tones: Tones): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(ringPlaces(picture, times), 3));
  geometry.setAttribute('color', new BufferAttribute(coloursOf(picture, tones), 3));
  geometry.setIndex(ringIndices(picture));
  geometry.computeVertexNormals();
  geometry.computeBoundingBox();
  return geometry;
}

function coloursOf(picture: FacePicture, { low, mid, high }: Tones): Float32Array {
  const middle = meanHeight(picture);
  const colours = new Float32Array(3 * picture.height_um.length);
  const tone = new Color();
  picture.height_um.forEach((height, i) => {
    const share = shareOf(height - middle);
    tone.copy(mid).lerp(share < 0 ? low : high, Math.abs(share));
    tone.toArray(colours, 3 * i);
  });
  return colours;
}
