package run

import (
	"fmt"
	"math"

	"costrel/physics/shell"
	"costrel/unit"
)

// Buckling is how the perfect bottle fails first under top load: what the nodes
// of the wall, from the gate upwards, do at the crest of a wave, or all round
// where it folds round. All moves are shares of the largest.
type Buckling struct {
	Test    string    `json:"test"`
	N       int       `json:"n"`       // waves round the axis; 0 for a round fold
	Load    float64   `json:"load"`    // N
	Reached bool      `json:"reached"` // within the stroke; else the first on the straight line through its last state
	S       []float64 `json:"s"`       // arc of the mid-surface from its lower end, m
	R       []float64 `json:"r"`       // m
	Z       []float64 `json:"z"`       // m
	U       []float64 `json:"u"`       // outward, times cos nθ
	W       []float64 `json:"w"`       // upward, times cos nθ
	V       []float64 `json:"v"`       // round the axis, times sin nθ
}

// buckles keeps for the page how a top load fails, and draws it in section and
// plan: the first buckle in waves, the round fold where that comes first, or, where
// nothing gives way within the stroke, the waves that would come next.
func (t *strengthTests) buckles(test string, p *shell.TopLoadResult) {
	form, c := p.Form, p.Buckle
	n := len(form.R)
	if !t.work.drawn || n < 2 {
		return
	}
	b := &Buckling{Test: test, N: c.Harmonic, Load: c.Load, Reached: p.Buckled, S: make([]float64, n), R: form.R, Z: form.Z, U: c.Mode.Radial, W: c.Mode.Axial, V: c.Mode.Round}
	node, place := c.Node, c.Place
	if fold := !p.Buckled && p.Mode == "round fold"; fold {
		*b = Buckling{Test: test, Load: p.Perfect, Reached: true, S: b.S, R: form.R, Z: form.Z, U: make([]float64, n), W: make([]float64, n), V: make([]float64, n)}
		most := 0.0
		for i := range n {
			most = math.Max(most, math.Hypot(form.Radial[i], form.Axial[i]))
		}
		for i := range n {
			b.U[i], b.W[i] = form.Radial[i]/most, form.Axial[i]/most
			if math.Abs(form.Z[i]-p.Place) < math.Abs(form.Z[node]-p.Place) || i == 0 {
				node = i
			}
		}
		place = p.Place
		if !(most > 0) {
			return
		}
	} else if c.Harmonic == 0 || len(c.Mode.Radial) != n {
		return
	}
	for i := 1; i < n; i++ {
		b.S[i] = b.S[i-1] + math.Hypot(b.R[i]-b.R[i-1], b.Z[i]-b.Z[i-1])
	}
	t.buckling = b
	scale := 0.1 * t.d.Bottle.Diameter / 2
	crest, trough := [2][]float64{}, [2][]float64{}
	for i := range n {
		crest[0], crest[1] = append(crest[0], b.R[i]+scale*b.U[i]), append(crest[1], b.Z[i]+scale*b.W[i])
		trough[0], trough[1] = append(trough[0], b.R[i]-scale*b.U[i]), append(trough[1], b.Z[i]-scale*b.W[i])
	}
	title, tops := "Buckling mode under top load", []Series{{Name: "crest", X: crest[0], Y: crest[1]}, {Name: "trough", X: trough[0], Y: trough[1]}}
	size := "; a mode has a form, no size: drawn with " + unit.Quote(unit.Length, scale, 2)
	note := fmt.Sprintf("%s round the axis, largest at z = %s", inWaves(b.N), unit.Quote(unit.Length, place, 3))
	switch {
	case b.N == 0:
		title, tops = "Round fold under top load", []Series{{Name: "folded", X: crest[0], Y: crest[1]}}
		note, size = "the same all round the axis, sharpest at z = "+unit.Quote(unit.Length, place, 3), "; the moves are drawn so that the largest is "+unit.Quote(unit.Length, scale, 2)
	case !b.Reached:
		title += ", not reached"
		note += "; not reached within the stroke: nothing gives way there, these waves would come next"
	}
	note += size
	mm := func(label string) Axis { return Axis{Label: label, Kind: unit.Length, Unit: "mm"} }
	t.plot(Plot{
		Key: "strength.buckle.section", Title: title + ", section", X: mm("radius"), Y: mm("height"), Note: note,
		Series: append([]Series{{Name: "unloaded", X: b.R, Y: b.Z, Dashed: true}}, tops...),
	})
	var round, mode [2][]float64
	r, u, v := b.R[node], b.U[node], b.V[node]
	const parts = 240
	for i := range parts + 1 {
		s, co := math.Sincos(2 * math.Pi * float64(i) / parts)
		sn, cn := math.Sincos(2 * math.Pi * float64(i) / parts * float64(b.N))
		out, side := r+scale*u*cn, scale*v*sn
		round[0], round[1] = append(round[0], r*co), append(round[1], r*s)
		mode[0], mode[1] = append(mode[0], out*co-side*s), append(mode[1], out*s+side*co)
	}
	t.plot(Plot{
		Key: "strength.buckle.plan", Title: title + ", plan at z = " + unit.Quote(unit.Length, place, 3), X: mm("x"), Y: mm("y"), Note: note,
		Series: []Series{{Name: "unloaded", X: round[0], Y: round[1], Dashed: true}, {Name: "mode", X: mode[0], Y: mode[1]}},
	})
}
