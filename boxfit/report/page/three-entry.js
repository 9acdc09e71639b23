export {
  Box3, BufferAttribute, BufferGeometry, DirectionalLight, DoubleSide, BackSide, FrontSide, EdgesGeometry,
  HemisphereLight, LineBasicMaterial, LineSegments, Mesh, MeshLambertMaterial, PerspectiveCamera, Plane, Raycaster, Scene, Sphere,
  Vector2, Vector3, WebGLRenderer,
} from "three";
export { OrbitControls } from "three/addons/controls/OrbitControls.js";
