package shell

import (
	"fmt"
	"math"

	"costrel/unit"
)

// control says which quantity is given in a step and which one is found.
type control int

const (
	givenLoad   control = iota // pressure and force given
	givenVolume                // volume given, pressure found
	givenStroke                // displacement of the top given, force found
)

// step is one increment of a path.
type step struct {
	control  control
	pressure float64 // gauge [Pa], where it is given
	force    float64 // on the top, down [N], where it is given
	target   float64 // volume [m³] or stroke [m]
	// sealed gives pressure and its slope by volume from the volume inside;
	// nil where the pressure is given.
	sealed func(volume float64) (p, slope float64)
	dt     float64 // time that passes [s]
	rate   float64 // factor of temperature on creep; 0 for 1
	soft   float64 // factor of temperature on stiffness; 0 for that of the case
	most   int     // iterations; 0 for 25
	// damp holds the wall back from where it stood, as a viscous step does: a
	// stiffness on every displacement as a share of the mean of the diagonal.
	damp float64
	// trail, where given, is that of the path, and along the place of the step on it.
	trail *trail
	along float64
}

// solve finds the equilibrium of a step from the present state by Newton's
// method. On failure the state is as before.
func (m *Model) solve(s step) error {
	copy(m.saved, m.u)
	p0, load0, vol0 := m.p, m.load, m.vol
	m.flow.dt, m.flow.rate, m.flow.soft = s.dt, 1, m.cs.Soft
	if s.rate > 0 {
		m.flow.rate = s.rate
	}
	if s.soft > 0 {
		m.flow.soft = s.soft
	}
	back := func() {
		copy(m.u, m.saved)
		m.p, m.load, m.vol = p0, load0, vol0
	}
	led := s.trail != nil && s.trail.lead(m, s.along)
	err := m.newton(s)
	if led && (err != nil || s.trail.astray(m)) { // the way bends here: learnt anew
		back()
		s.trail.n, s.trail.led = 0, false
		err = m.newton(s)
	}
	if err != nil {
		back()
		return err
	}
	if s.trail != nil {
		s.trail.note(m, s.along)
	}
	m.old, m.now = m.now, m.old
	m.ok = true
	return nil
}

func (m *Model) newton(s step) error {
	most := s.most
	if most == 0 {
		most = 25
	}
	top := 3*(m.n-1) + 1
	switch s.control {
	case givenLoad, givenVolume:
		m.load = s.force
	}
	if s.sealed == nil && s.control != givenVolume {
		m.p = s.pressure
	}
	last, greatest, recent := math.Inf(1), 0.0, [4]float64{}
	before, beforeTurn := 0.0, 0.0 // sizes of the correction before
	for it := range most {
		clear(m.r)
		clear(m.g)
		m.K.Zero()
		slope := 0.0
		m.flow.begins = it == 0
		m.placeFaces()
		if s.sealed != nil {
			m.p, slope = s.sealed(m.inside(nil, nil, 0))
		}
		m.vol = m.inside(m.g, m.K, m.p)
		if err := m.eval(m.r, m.K); err != nil {
			return fmt.Errorf("%w: %w", err, ErrNoConvergence)
		}
		for i, v := range m.g {
			m.r[i] += m.p * v
		}
		m.r[top] -= m.load
		m.support()
		if s.damp > 0 {
			d := s.damp * m.K.Trace()
			for i := range m.u {
				k := d
				if i%3 == 2 {
					k *= m.mesh.T[i/3] * m.mesh.T[i/3]
				}
				m.K.Add(i, i, k)
				m.r[i] -= k * (m.u[i] - m.saved[i])
			}
		}
		m.hold(m.r)
		m.hold(m.g)
		m.holdK()
		if _, err := m.factor.Decompose(m.K); err != nil {
			return fmt.Errorf("%w: %w", err, ErrNoConvergence)
		}
		copy(m.a, m.r)
		m.factor.Solve(m.a)
		var lift float64
		if slope != 0 {
			copy(m.q, m.g)
			m.factor.Solve(m.q)
			gq := dot(m.g, m.q)
			lift = slope / (1 - slope*gq)
			axpy(m.a, lift*dot(m.g, m.a), m.q)
		}
		if s.control != givenLoad {
			// One more unknown, pressure or force, and one more condition.
			var have float64
			if s.control == givenVolume {
				copy(m.b, m.g)
				have = m.vol
			} else {
				clear(m.b)
				m.b[top] = -1
				have = -m.u[top]
			}
			m.factor.Solve(m.b)
			var along, step float64
			if s.control == givenVolume {
				along, step = dot(m.g, m.b), dot(m.g, m.a)
			} else {
				if lift != 0 {
					axpy(m.b, lift*dot(m.g, m.b), m.q)
				}
				along, step = -m.b[top], -m.a[top]
			}
			d := (s.target - have - step) / along
			axpy(m.a, d, m.b)
			if s.control == givenVolume {
				m.p += d
			} else {
				m.load += d
			}
			if math.IsNaN(d) || math.IsInf(d, 0) {
				return fmt.Errorf("the unknown load is not finite: %w", ErrNoConvergence)
			}
		}
		move, turn, size := 0.0, 0.0, 0.0
		for i, v := range m.a {
			if i%3 == 2 {
				turn = math.Max(turn, math.Abs(v))
			} else {
				move = math.Max(move, math.Abs(v))
				size = math.Max(size, math.Abs(m.u[i]+v))
			}
		}
		if math.IsNaN(move+turn) || move > 2*m.scale || turn > 20 {
			return fmt.Errorf("a correction of ‹%.3g mm›: %w", move*1e3, ErrNoConvergence)
		}
		// A long stride of rotation is shortened: the tangent knows no loops.
		cut := 1.0
		if turn > 0.4 {
			cut = 0.4 / turn
		}
		for i, v := range m.a {
			m.u[i] += cut * v
		}
		// Newton's corrections shrink by their square: the next one is known before
		// it is made.
		next, swing := move, turn
		if before > 0 && cut == 1 && move < 1e-3*size && turn < 1e-2 {
			shrink := math.Min(1, 4*math.Max(move/before, turn/beforeTurn))
			next, swing = shrink*move, shrink*turn
		}
		before, beforeTurn = move, math.Max(turn, 1e-300)
		if next <= 2e-7*size+1e-13 && swing <= 2e-6 && cut == 1 {
			m.vol = m.volume(nil, nil, 0)
			if s.sealed != nil {
				m.p, _ = s.sealed(m.vol)
			}
			return nil
		}
		if it > 12 && move > last*2 && move > 1e-3*m.scale {
			break
		}
		last = math.Min(last, move)
		// A search that settles has come near by now: four corrections on end that
		// are no smaller than a part of the largest wander.
		greatest = math.Max(greatest, move)
		recent[it%4] = move
		if it >= 6 && min(recent[0], recent[1], recent[2], recent[3]) > 0.07*greatest {
			break
		}
	}
	return fmt.Errorf("the iteration of Newton does not settle: %w", ErrNoConvergence)
}

func dot(x, y []float64) float64 {
	s := 0.0
	for i, v := range x {
		s += v * y[i]
	}
	return s
}

func axpy(y []float64, k float64, x []float64) {
	for i, v := range x {
		y[i] += k * v
	}
}

// Load is what acts on a model besides its supports.
type Load struct {
	Pressure float64 // gauge, on the pressure face [Pa]; negative is vacuum
	Force    float64 // on the top, positive downwards [N]
}

// Nonlinear brings the model to a load in steps, with large displacement,
// yield, and pressure that follows the wall. A step that does not settle is
// tried again in halves. On failure the state is that of the last good load,
// which the error names.
func (m *Model) Nonlinear(to Load, steps int) error {
	from := Load{m.p, m.load}
	if bad(to.Pressure) || bad(to.Force) {
		return fmt.Errorf("shell: nonlinear: pressure ‹%g Pa›, force ‹%g N›", to.Pressure, to.Force)
	}
	if steps < 1 {
		steps = 1
	}
	x, d := 0.0, 1/float64(steps)
	for x < 1-1e-12 {
		next := math.Min(1, x+d)
		if 1-next < 1e-9 {
			next = 1
		}
		err := m.solve(step{pressure: from.Pressure + next*(to.Pressure-from.Pressure), force: from.Force + next*(to.Force-from.Force)})
		if err == nil {
			x = next
			d = math.Min(d*1.5, 1)
			continue
		}
		d /= 2
		if d < 1.0/512 {
			return fmt.Errorf("shell: nonlinear: last good load %s, %s: %w", unit.Quote(unit.PressureGauge, m.p, 4), unit.Quote(unit.Force, m.load, 4), err)
		}
	}
	return nil
}

func bad(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) }

// Linear returns the displacements of the unloaded, unstrained shell under a
// load by the theory of small displacements, three a node (radial, axial,
// turn), and the forces the elements carry. The state of the model is lost.
func (m *Model) Linear(q Load) (SmallState, error) {
	if bad(q.Pressure) || bad(q.Force) {
		return SmallState{}, fmt.Errorf("shell: linear: pressure ‹%g Pa›, force ‹%g N›", q.Pressure, q.Force)
	}
	if err := m.linear(q); err != nil {
		return SmallState{}, err
	}
	return SmallState{U: append([]float64(nil), m.u...), Force: append([]Resultant(nil), m.force...)}, nil
}

// SmallState is a state of small displacement.
type SmallState struct {
	U     []float64   // radial, axial, turn of each node
	Force []Resultant // of each element, see Stresses
}

func (m *Model) linear(q Load) error {
	m.Reset()
	clear(m.r)
	m.volume(m.r, nil, 0)
	for i := range m.r {
		m.r[i] *= q.Pressure
	}
	m.r[3*(m.n-1)+1] -= q.Force
	m.hold(m.r)
	m.stiff()
	if f := m.floor; f != nil {
		m.K.Add(3*f.ring+1, 3*f.ring+1, 1e3*f.stiff)
	}
	m.holdK()
	if neg, err := m.factor.Decompose(m.K); err != nil || neg > 0 {
		return fmt.Errorf("shell: linear: the stiffness is not positive (%d negative pivots): is the shell supported? %w", neg, ErrUnsupported)
	}
	m.factor.Solve(m.r)
	copy(m.u, m.r)
	for _, v := range m.u {
		if bad(v) {
			return fmt.Errorf("shell: linear: a displacement is not finite: %w", ErrUnsupported)
		}
	}
	m.small()
	m.p, m.load = q.Pressure, q.Force
	return nil
}

// rows returns the strain rows of an element for small displacement and the
// forces they give.
func (e *element) rows() [5][6]float64 {
	il, hr := 1/e.l, 0.5/e.rm
	nr, nz := e.tz, -e.tr
	b12 := e.turn / 12
	hs, hd := hr*e.l/12*e.tr*e.turn, hr*e.l/6*nr
	return [5][6]float64{
		{-e.tr * il, -e.tz * il, -b12, e.tr * il, e.tz * il, b12},
		{hr, 0, hs - hd, hr, 0, hs + hd},
		{0, 0, -il, 0, 0, il},
		{0, 0, e.tr * hr, 0, 0, e.tr * hr},
		{-nr * il, -nz * il, 0.5, nr * il, nz * il, 0.5},
	}
}

// stiff assembles the stiffness of the unloaded shell.
func (m *Model) stiff() {
	m.K.Zero()
	var kb [36]float64
	f := m.cs.Soft
	for i := range m.mesh.el {
		e := &m.mesh.el[i]
		B := e.rows()
		w := 2 * math.Pi * e.rm * e.l * f
		gs := e.gs
		for y := range 6 {
			b := [4]float64{B[0][y], B[1][y], B[2][y], B[3][y]}
			c0 := e.a.s*b[0] + e.a.c*b[1] + e.b.s*b[2] + e.b.c*b[3]
			c1 := e.a.c*b[0] + e.a.h*b[1] + e.b.c*b[2] + e.b.h*b[3]
			c2 := e.b.s*b[0] + e.b.c*b[1] + e.d.s*b[2] + e.d.c*b[3]
			c3 := e.b.c*b[0] + e.b.h*b[1] + e.d.c*b[2] + e.d.h*b[3]
			c4 := gs * B[4][y]
			for x := y; x < 6; x++ {
				kb[6*x+y] = w * (B[0][x]*c0 + B[1][x]*c1 + B[2][x]*c2 + B[3][x]*c3 + B[4][x]*c4)
			}
		}
		m.K.AddBlock(3*i, 6, kb[:])
	}
}

// small sets the forces of the elements from small displacements.
func (m *Model) small() {
	f := m.cs.Soft
	for i := range m.mesh.el {
		e := &m.mesh.el[i]
		B := e.rows()
		var s [5]float64
		for k := range 5 {
			for x := range 6 {
				s[k] += B[k][x] * m.u[3*i+x]
			}
		}
		m.force[i] = Resultant{
			ns: f * (e.a.s*s[0] + e.a.c*s[1] + e.b.s*s[2] + e.b.c*s[3]),
			nh: f * (e.a.c*s[0] + e.a.h*s[1] + e.b.c*s[2] + e.b.h*s[3]),
			ms: f * (e.b.s*s[0] + e.b.c*s[1] + e.d.s*s[2] + e.d.c*s[3]),
			mh: f * (e.b.c*s[0] + e.b.h*s[1] + e.d.c*s[2] + e.d.h*s[3]),
			q:  f * e.gs * s[4],
		}
	}
}
