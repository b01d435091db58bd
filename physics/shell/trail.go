package shell

import "math"

// trail is the last three states of a path by its parameter, from which the next
// one is guessed: by a parabola, where Newton's method alone sets out straight.
// It only saves the way.
type trail struct {
	n int
	x [3]float64
	u [3][]float64 // displacements, then pressure and force

	led    bool      // the last state began at a guess
	load   float64   // of that [N]
	guess  []float64 // displacements of that
	stride float64   // the largest displacement from the state before to the guess [m]
}

// note keeps the state of a model that was found at x.
func (t *trail) note(m *Model, x float64) {
	t.u[0], t.u[1], t.u[2] = t.u[1], t.u[2], t.u[0]
	t.x[0], t.x[1], t.x[2] = t.x[1], t.x[2], x
	t.u[2] = append(append(t.u[2][:0], m.u...), m.p, m.load)
	t.n++
}

// astray says whether the state found lies farther from its guess than that from
// the state before: beyond a snap, maybe.
func (t *trail) astray(m *Model) bool {
	off := 0.0
	for i, v := range m.u {
		if i%3 != 2 {
			off = max(off, math.Abs(v-t.guess[i]))
		}
	}
	return off > t.stride
}

// lead sets a model to the guess at x; false where the trail is too short, or x
// too far from its end.
func (t *trail) lead(m *Model, x float64) bool {
	a, b, c := t.x[0], t.x[1], t.x[2]
	t.led = false
	if t.n < 3 || !((x-c)*(c-b) > 0) || !((c-b)*(b-a) > 0) || (x-c)/(c-b) > 3 || (x-c)/(c-a) > 1.5 {
		return false
	}
	w := [3]float64{(x - b) * (x - c) / ((a - b) * (a - c)), (x - a) * (x - c) / ((b - a) * (b - c)), (x - a) * (x - b) / ((c - a) * (c - b))}
	at := func(i int) float64 { return w[0]*t.u[0][i] + w[1]*t.u[1][i] + w[2]*t.u[2][i] }
	n := len(m.u)
	t.stride = 0
	for i := range m.u {
		v := at(i)
		if i%3 != 2 {
			t.stride = max(t.stride, math.Abs(v-m.u[i]))
		}
		m.u[i] = v
	}
	t.guess = append(t.guess[:0], m.u...)
	m.p, m.load = at(n), at(n+1)
	t.led, t.load = true, m.load
	return true
}
