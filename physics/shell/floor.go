package shell

import "math"

// floor is a rigid plane on which the wall stands by whatever part of it has
// come down. It pushes and never pulls: softly at first, so that the cones of
// the mesh come to rest on it one after the other without a knock,
//
//	F = k x (1 + x/x_0)    x: how deep the node is
//
// A node that carries 50 N stands 0.01 mm deep, one with 1000 N 0.05 mm.
type floor struct {
	gap   []float64 // of the outer face over the plane, unloaded, of the nodes from the gate [m]
	from  int       // first node that the plane holds
	ring  int       // node that stands when nothing presses
	stiff float64   // k [N/m]
	soft  float64   // x_0 [m]
}

// onFloor puts the model on a plane under the outer face of a node, in place
// of its support along the axis. The plane holds the nodes inside that ring, too:
// a base that hangs down comes to stand on its middle.
func (m *Model) onFloor(ring int) {
	g := m.mesh
	outside := func(i int) float64 { return g.Z[i] + 0.5*g.T[i]*g.NZ[i] }
	f := &floor{gap: make([]float64, ring+max(1, (m.n-ring)/2)), ring: ring, stiff: 1e6, soft: 3e-6}
	for i := range f.gap {
		f.gap[i] = outside(i) - outside(ring)
	}
	m.fixed[3*ring+1] = false
	m.floor = f
}

// hanging returns the lowest node of the present state and how deep it hangs
// below the ring [m].
func (m *Model) hanging() (low int, deep float64) {
	f := m.floor
	low = f.ring
	for i, gap := range f.gap {
		if gap+m.u[3*i+1] < f.gap[low]+m.u[3*low+1] {
			low = i
		}
	}
	return low, f.gap[f.ring] + m.u[3*f.ring+1] - f.gap[low] - m.u[3*low+1]
}

// standOn moves the plane up to the outer face of a node as it is: nothing else
// of the pack touches it yet.
func (m *Model) standOn(node int) {
	f := m.floor
	at := f.gap[node] + m.u[3*node+1]
	for i := range f.gap {
		f.gap[i] -= at
	}
	f.ring, f.from = node, 0
}

// patch returns the largest radius at which the plane holds the wall [m].
func (m *Model) patch() float64 {
	r := 0.0
	m.touching(func(i int) { r = math.Max(r, m.mesh.R[i]+m.u[3*i]) })
	return r
}

// push returns the force [N] of the plane on a node and its slope [N/m].
func (m *Model) push(node int) (force, slope float64) {
	f := m.floor
	x := -(f.gap[node] + m.u[3*node+1])
	if x <= 0 {
		return f.stiff * x, f.stiff
	}
	return f.stiff * x * (1 + x/f.soft), f.stiff * (1 + 2*x/f.soft)
}

// touching calls do for every node that the plane holds.
func (m *Model) touching(do func(node int)) {
	none := true
	for i := m.floor.from; i < len(m.floor.gap); i++ {
		if m.floor.gap[i]+m.u[3*i+1] <= 0 {
			do(i)
			none = false
		}
	}
	if none { // the ring holds it, or nothing would
		do(m.floor.ring)
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
