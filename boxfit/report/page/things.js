"use strict";
// The page's data as things that three.js draws; see boxfit/report/page/packed.py for what the data holds.
const thingsOf = (data) => {
  const inks = new Map();
  const edgeInk = new THREE.LineBasicMaterial({ color: 0x1c2430 });

  function numbers(text, wide) {
    const raw = atob(text);
    const found = new Uint8Array(raw.length);
    for (let k = 0; k < raw.length; k += 1) found[k] = raw.charCodeAt(k);
    return wide ? new Uint32Array(found.buffer) : new Uint16Array(found.buffer);
  }

  // Corners are whole steps from the form's low corner; triangles and edges are corner numbers.
  function form(packed) {
    const steps = numbers(packed.corners, false);
    const places = new Float32Array(steps.length);
    for (let k = 0; k < steps.length; k += 1) places[k] = packed.low[k % 3] + packed.step[k % 3] * steps[k];
    const corners = new THREE.BufferAttribute(places, 3);
    const made = [packed.triangles, packed.edges].map((text) => {
      const geometry = new THREE.BufferGeometry();
      geometry.setAttribute("position", corners);
      geometry.setIndex(new THREE.BufferAttribute(numbers(text, packed.wide), 1));
      return geometry;
    });
    made[0].computeBoundingBox();
    return made;
  }

  function ink(part) {
    const key = JSON.stringify([part.colour, part.look]);
    if (!inks.has(key)) {
      const clear = part.colour[3] < 1;
      const made = new THREE.MeshLambertMaterial({
        flatShading: true,
        side: { solid: THREE.FrontSide, room: THREE.BackSide, skin: THREE.DoubleSide }[part.look],
        transparent: clear,
        opacity: part.colour[3],
        depthWrite: !clear,
        polygonOffset: true,
        polygonOffsetFactor: 1,
        polygonOffsetUnits: 1,
      });
      made.color.setRGB(part.colour[0], part.colour[1], part.colour[2]);
      inks.set(key, made);
    }
    return inks.get(key);
  }

  const forms = data.forms.map(form);
  const solids = data.parts.map((part) => {
    const [faces, edges] = forms[part.form];
    const mesh = new THREE.Mesh(faces, ink(part));
    mesh.add(new THREE.LineSegments(edges, edgeInk));
    mesh.renderOrder = part.colour[3] < 1 ? 1 : 0;
    mesh.userData = part;
    return mesh;
  });
  const lines = data.lines.map((line) => {
    const points = line.points.map((point) => new THREE.Vector3(...point));
    const made = new THREE.LineSegments(new THREE.BufferGeometry().setFromPoints(points), new THREE.LineBasicMaterial());
    made.material.color.setRGB(line.colour[0], line.colour[1], line.colour[2]);
    made.geometry.computeBoundingBox();
    made.userData = line;
    return made;
  });
  return [...solids, ...lines];
};

// Cut faces: within each colour, far faces less near faces ahead of the plane leave a count above 0 in the stencil
// wherever the plane lies in metal; a sheet of paler colour is drawn there and the count is set back.
const cutsOf = (solids, size) => {
  const ahead = (side, step) =>
    new THREE.MeshBasicMaterial({
      side,
      depthWrite: false,
      depthTest: false,
      colorWrite: false,
      stencilWrite: true,
      stencilFunc: THREE.AlwaysStencilFunc,
      stencilFail: step,
      stencilZFail: step,
      stencilZPass: step,
    });
  const counting = [ahead(THREE.BackSide, THREE.IncrementWrapStencilOp), ahead(THREE.FrontSide, THREE.DecrementWrapStencilOp)];
  const square = new THREE.BufferGeometry().setFromPoints(
    [[-1, -1], [1, -1], [1, 1], [-1, -1], [1, 1], [-1, 1]].map(([x, y]) => new THREE.Vector3(x * size, y * size, 0)),
  );
  const counts = [];
  const sheets = new Map();

  function sheet(colour, order) {
    const ink = new THREE.MeshBasicMaterial({
      side: THREE.DoubleSide,
      stencilWrite: true,
      stencilRef: 0,
      stencilFunc: THREE.NotEqualStencilFunc,
      stencilFail: THREE.ZeroStencilOp,
      stencilZFail: THREE.ZeroStencilOp,
      stencilZPass: THREE.ZeroStencilOp,
    });
    ink.color.setRGB(...[0.75, 0.7, 0.55].map((pale, k) => 0.6 * colour[k] + 0.4 * pale));
    const made = new THREE.Mesh(square, ink);
    made.renderOrder = order + 0.5;
    return made;
  }

  for (const mesh of solids.filter((one) => one.isMesh && one.userData.look === "solid")) {
    const colour = mesh.userData.colour;
    const key = JSON.stringify(colour);
    if (!sheets.has(key)) sheets.set(key, sheet(colour, sheets.size + 2));
    for (const ink of counting) {
      const count = new THREE.Mesh(mesh.geometry, ink);
      count.renderOrder = sheets.get(key).renderOrder - 0.5;
      mesh.add(count);
      counts.push(count);
    }
  }

  // Shows the cuts along a plane, or hides them where there is none.
  function along(plane) {
    for (const count of counts) count.visible = plane !== null;
    for (const one of sheets.values()) {
      one.visible = plane !== null;
      if (plane === null) continue;
      one.quaternion.setFromUnitVectors(new THREE.Vector3(0, 0, 1), plane.normal);
      one.position.copy(plane.normal).multiplyScalar(0.02 - plane.constant); // just on the side that is kept
    }
  }

  return { sheets: [...sheets.values()], along };
};
