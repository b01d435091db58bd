package shell

// floor is a rigid plane on which the wall stands by whatever part of it has
// come down. It pushes and never pulls: softly at first, so that the cones of
// the mesh come to rest on it one after the other without a knock,
//
//	F = k x (1 + x/x_0)    x: how deep the node is
//
// A node that carries 50 N stands 0.01 mm deep, one with 1000 N 0.05 mm.
type floor struct {
	gap   []float64 // of the outer face over the plane, unloaded, of the node ring and those outside it [m]
	ring  int       // node that stands when nothing presses
	stiff float64   // k [N/m]
	soft  float64   // x_0 [m]
}

// onFloor puts the model on a plane under the outer face of a node, in place
// of its support along the axis. What lies inside that ring is free: a base that
// has rolled out is pushed back by its pressure times its area before the ring
// comes down, which is little.
func (m *Model) onFloor(ring int) {
	g := m.mesh
	outside := func(i int) float64 { return g.Z[i] + 0.5*g.T[i]*g.NZ[i] }
	f := &floor{gap: make([]float64, max(1, (m.n-ring)/2)), ring: ring, stiff: 1e6, soft: 3e-6}
	for i := range f.gap {
		f.gap[i] = outside(ring+i) - outside(ring)
	}
	m.fixed[3*ring+1] = false
	m.floor = f
}

// push returns the force [N] of the plane on a node and its slope [N/m].
func (m *Model) push(node int) (force, slope float64) {
	f := m.floor
	x := -(f.gap[node-f.ring] + m.u[3*node+1])
	if x <= 0 {
		return f.stiff * x, f.stiff
	}
	return f.stiff * x * (1 + x/f.soft), f.stiff * (1 + 2*x/f.soft)
}

// touching calls do for every node that the plane holds.
func (m *Model) touching(do func(node int)) {
	none := true
	ring := m.floor.ring
	for i, gap := range m.floor.gap {
		if gap+m.u[3*(ring+i)+1] <= 0 {
			do(ring + i)
			none = false
		}
	}
	if none { // the ring holds it, or nothing would
		do(ring)
	}
}

// support adds the forces of the plane and their tangent.
func (m *Model) support() {
	if m.floor == nil {
		return
	}
	m.touching(func(i int) {
		force, slope := m.push(i)
		m.r[3*i+1] += force
		m.K.Add(3*i+1, 3*i+1, slope)
	})
}
