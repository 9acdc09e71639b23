"use strict";
// The turnable model of the page. It draws only when something changes, so nothing moves by itself.
(() => {
  const data = JSON.parse(document.getElementById("model-data").textContent);
  const frame = document.getElementById("model");
  const canvas = document.getElementById("model-canvas");
  const said = document.getElementById("model-said");
  const STEP = Math.PI / 24;

  const renderer = started();
  if (!renderer) {
    document.getElementById("model-plain").remove();
    said.textContent = "This browser shows no 3D (WebGL 2 is off). The drawings and tables below hold the same.";
    return;
  }

  const scene = new THREE.Scene();
  const camera = new THREE.PerspectiveCamera(30, 1, 10, 60000);
  camera.up.set(0, 0, 1);
  const controls = new THREE.OrbitControls(camera, canvas);
  controls.enableDamping = false;
  controls.zoomToCursor = true;
  const plane = new THREE.Plane(new THREE.Vector3(1, 0, 0), 0);
  const parts = thingsOf(data);
  const cuts = cutsOf(parts, 2 * Math.max(...data.low.map(Math.abs), ...data.high.map(Math.abs)));

  function started() {
    if (!window.WebGL2RenderingContext) return null;
    const context = canvas.getContext("webgl2", { antialias: true, alpha: false, stencil: true, preserveDrawingBuffer: true });
    return context && new THREE.WebGLRenderer({ canvas, context });
  }

  function build() {
    renderer.setClearColor(0xf4f3ee, 1);
    scene.add(new THREE.HemisphereLight(0xffffff, 0x8d8a80, 2.2));
    for (const [x, y, z, strength] of [[1, 1.6, 2.4, 1.6], [-1.5, -1, 1, 0.5]]) {
      const light = new THREE.DirectionalLight(0xffffff, strength);
      light.position.set(x, y, z);
      scene.add(light);
    }
    scene.add(...parts, ...cuts.sheets);
  }

  // ---- what is shown, and where

  const checked = (kind) =>
    new Set([...document.querySelectorAll(`input[data-${kind}]:checked`)].map((box) => box.dataset[kind]));

  function arrange() {
    const kinds = checked("kind");
    const groups = checked("group");
    const apart = Number(document.getElementById("exploded").value) / 100;
    for (const thing of parts) {
      const what = thing.userData;
      thing.visible = kinds.has(what.kind) && (!what.group || groups.has(what.group));
      const shift = what.shift || [0, 0, 0];
      const push = what.push || [0, 0, 0];
      thing.position.set(...shift.map((place, k) => place + apart * push[k]));
    }
    cut();
    draw();
  }

  function cut() {
    const axis = document.getElementById("section-axis").value;
    const slider = document.getElementById("section-at");
    const other = document.getElementById("section-other");
    const words = document.getElementById("section-said");
    slider.disabled = other.disabled = axis === "none";
    if (axis === "none") {
      renderer.clippingPlanes = [];
      cuts.along(null);
      words.textContent = "no section";
      return;
    }
    const k = "xyz".indexOf(axis);
    const at = data.low[k] + ((data.high[k] - data.low[k]) * Number(slider.value)) / 1000;
    const side = other.checked ? 1 : -1;
    plane.normal.set(0, 0, 0).setComponent(k, side);
    plane.constant = -side * at;
    renderer.clippingPlanes = [plane];
    cuts.along(plane);
    words.textContent = `cut at ${axis} = ${Math.round(at)} mm`;
    slider.setAttribute("aria-valuetext", words.textContent);
  }

  // ---- where it is seen from

  const VIEWS = {
    corner: [-1.1, 1.35, 0.95],
    plan: [0, 0, 1],
    side: [0, 1, 0],
    rear: [-1, 0, 0],
  };

  // The corners of the blocks round everything shown.
  function corners() {
    const found = [];
    for (const thing of parts) {
      if (!thing.visible || thing.userData.kind === "car lines") continue;
      const { min, max } = thing.geometry.boundingBox;
      for (let k = 0; k < 8; k += 1) {
        const corner = new THREE.Vector3(k & 1 ? max.x : min.x, k & 2 ? max.y : min.y, k & 4 ? max.z : min.z);
        found.push(corner.add(thing.position));
      }
    }
    return found.length ? found : [data.low, data.high].map((end) => new THREE.Vector3(...end));
  }

  // Everything shown fills the frame: from far off its corners tell where the middle is, then how near to go.
  function look(way) {
    const whole = corners();
    const middle = new THREE.Box3().setFromPoints(whole).getCenter(new THREE.Vector3());
    const ahead = way.clone().normalize();
    const slope = Math.tan((camera.fov * Math.PI) / 360) * 0.9;
    camera.position.copy(ahead).add(middle);
    camera.lookAt(middle);
    camera.updateMatrixWorld();
    const [across, up] = [0, 1].map((k) => new THREE.Vector3().setFromMatrixColumn(camera.matrix, k));
    for (const axis of [across, up]) {
      const along = whole.map((corner) => corner.clone().sub(middle).dot(axis));
      middle.addScaledVector(axis, (Math.min(...along) + Math.max(...along)) / 2);
    }
    const needs = whole.map((corner) => {
      const from = corner.clone().sub(middle);
      const aside = Math.max(Math.abs(from.dot(across)) / camera.aspect, Math.abs(from.dot(up)));
      return from.dot(ahead) + aside / slope;
    });
    controls.target.copy(middle);
    camera.position.copy(middle).addScaledVector(ahead, Math.max(...needs));
    controls.update();
    draw();
  }

  const looking = () => camera.position.clone().sub(controls.target);

  function seen(name) {
    const way = new THREE.Vector3(...VIEWS[name]);
    if (name === "plan") way.set(0, 1e-4, 1); // front to the left, as in the drawings
    look(way);
  }

  function turn(across, up) {
    const way = looking();
    const far = way.length();
    const round = Math.atan2(way.y, way.x) + across;
    const flat = Math.min(Math.max(Math.acos(way.z / far) + up, 1e-3), Math.PI - 1e-3);
    way.set(Math.sin(flat) * Math.cos(round), Math.sin(flat) * Math.sin(round), Math.cos(flat)).multiplyScalar(far);
    camera.position.copy(controls.target).add(way);
    controls.update();
    draw();
  }

  function nearer(times) {
    camera.position.copy(controls.target).add(looking().multiplyScalar(times));
    controls.update();
    draw();
  }

  function slide(across, up) {
    const step = looking().length() * 0.04;
    const move = new THREE.Vector3();
    for (const [k, much] of [[0, across], [1, up]]) {
      move.add(new THREE.Vector3().setFromMatrixColumn(camera.matrix, k).multiplyScalar(step * much));
    }
    camera.position.add(move);
    controls.target.add(move);
    controls.update();
    draw();
  }

  const KEYS = {
    ArrowLeft: (shift) => (shift ? slide(-1, 0) : turn(-STEP, 0)),
    ArrowRight: (shift) => (shift ? slide(1, 0) : turn(STEP, 0)),
    ArrowUp: (shift) => (shift ? slide(0, 1) : turn(0, -STEP)),
    ArrowDown: (shift) => (shift ? slide(0, -1) : turn(0, STEP)),
    "+": () => nearer(0.85),
    "=": () => nearer(0.85),
    "-": () => nearer(1 / 0.85),
    Home: () => seen("corner"),
  };

  canvas.addEventListener("keydown", (event) => {
    const act = KEYS[event.key];
    if (!act || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    act(event.shiftKey);
  });

  // The wheel turns the page until the model is chosen.
  controls.enableZoom = false;
  canvas.addEventListener("focus", () => (controls.enableZoom = true));
  canvas.addEventListener("blur", () => (controls.enableZoom = false));
  canvas.addEventListener("pointerdown", () => canvas.focus({ preventScroll: true }));

  // ---- names: what was clicked

  let pressed = null;
  canvas.addEventListener("pointerdown", (event) => (pressed = [event.clientX, event.clientY]));
  canvas.addEventListener("pointerup", (event) => {
    if (!pressed || Math.hypot(event.clientX - pressed[0], event.clientY - pressed[1]) > 4) return;
    const edge = canvas.getBoundingClientRect();
    const at = new THREE.Vector2(
      ((event.clientX - edge.left) / edge.width) * 2 - 1,
      1 - ((event.clientY - edge.top) / edge.height) * 2,
    );
    const ray = new THREE.Raycaster();
    ray.setFromCamera(at, camera);
    const kept = (hit) => !renderer.clippingPlanes.length || plane.distanceToPoint(hit.point) >= 0;
    const solid = parts.filter((thing) => thing.visible && thing.isMesh && thing.userData.look === "solid");
    const hit = ray.intersectObjects(solid, false).find(kept);
    said.textContent = hit ? called(hit.object.userData) : "Click a part for its name.";
  });

  // A part's name, with its box where the name does not tell it.
  const called = ({ name, group }) => (group && !name.startsWith(group) ? `${name}, ${group}` : name);

  // ---- drawing

  let asked = false;
  function draw() {
    if (asked) return;
    asked = true;
    requestAnimationFrame(now);
  }

  function now() {
    asked = false;
    camera.near = Math.max(5, looking().length() / 40); // the nearer the finer depths are told apart
    camera.updateProjectionMatrix();
    renderer.render(scene, camera);
    name();
    if (!frame.dataset.drawn) frame.dataset.drawn = String(Math.round(performance.now()));
    frame.dataset.times = String(Number(frame.dataset.times || 0) + 1);
  }

  function name() {
    for (const mark of frame.querySelectorAll("[data-at]")) {
      const at = new THREE.Vector3(...JSON.parse(mark.dataset.at)).project(camera);
      mark.hidden = Math.abs(at.x) > 1 || Math.abs(at.y) > 1 || at.z > 1;
      mark.style.left = `${(at.x + 1) * 50}%`;
      mark.style.top = `${(1 - at.y) * 50}%`;
    }
  }

  function fitted() {
    const width = frame.clientWidth;
    const height = frame.clientHeight;
    if (!width || !height) return;
    renderer.setPixelRatio(Math.min(window.devicePixelRatio || 1, 2));
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    camera.updateProjectionMatrix();
    now();
  }

  build();
  document.getElementById("model-controls").hidden = false;
  document.getElementById("model-plain").remove();
  for (const box of document.querySelectorAll("#model-controls input, #model-controls select")) {
    box.addEventListener("input", arrange);
  }
  document.getElementById("exploded").addEventListener("change", () => look(looking()));
  for (const button of document.querySelectorAll("button[data-view]")) {
    button.addEventListener("click", () => seen(button.dataset.view));
  }
  controls.addEventListener("change", draw);
  const first = new THREE.Vector3(...VIEWS.corner);
  camera.aspect = (frame.clientWidth || 4) / (frame.clientHeight || 3);
  arrange();
  look(first);
  new ResizeObserver(fitted).observe(frame);
  fitted();
})();
