export {
  Box3, BufferAttribute, BufferGeometry, DirectionalLight, BackSide, FrontSide,
  HemisphereLight, LineBasicMaterial, LineSegments, Mesh, MeshBasicMaterial, MeshLambertMaterial, PerspectiveCamera, Plane, Raycaster, Scene,
  Vector2, Vector3, WebGLRenderer,
  AlwaysStencilFunc, DecrementWrapStencilOp, DoubleSide, IncrementWrapStencilOp, NotEqualStencilFunc, ZeroStencilOp,
} from "three";
export { OrbitControls } from "three/addons/controls/OrbitControls.js";
