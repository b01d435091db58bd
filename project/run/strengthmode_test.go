package run

import (
	"math"
	"strings"
	"testing"

	"costrel/physics/shell"
)

// What is drawn is what fails: a round fold as the moved wall, the same all
// round, and never waves that the stroke does not reach without saying so.
func TestModeThatFailsIsDrawn(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	r := tested(t, example(t, "wrenhollow.yaml"))
	b := r.Geometry.Buckling
	if why := strings.Join(figureOf(t, r, "topload.empty").Origin.Warnings, "; "); !strings.Contains(why, "round fold") {
		t.Fatalf("another failure than this test is for: %s", why)
	}
	most := 0.0
	for i := range b.R {
		most = math.Max(most, math.Hypot(b.U[i], b.W[i]))
	}
	if b.N != 0 || !b.Reached || math.Abs(most-1) > 1e-9 || !(b.Load > 0) {
		t.Errorf("%d waves, reached %t, largest move %g, %g N", b.N, b.Reached, most, b.Load)
	}
	told := 0
	for _, p := range r.Plots {
		if strings.HasPrefix(p.Key, "strength.buckle.") {
			if told++; !strings.HasPrefix(p.Title, "Round fold") || strings.Contains(p.Note, "waves") {
				t.Errorf("%s: %s", p.Title, p.Note)
			}
		}
	}
	if told != 2 {
		t.Errorf("%d plots of the fold", told)
	}
	// Waves beyond the stroke say so.
	x := strengthTests{pass: &pass{d: r.Doc.Design, work: work{drawn: true}}}
	form := shell.Form{R: []float64{0.03, 0.03}, Z: []float64{0, 0.1}, Radial: make([]float64, 2), Axial: make([]float64, 2)}
	p := shell.TopLoadResult{Form: form, Mode: "none within the stroke"}
	p.Buckle.Harmonic, p.Buckle.Load = 3, 500
	p.Buckle.Mode.Radial, p.Buckle.Mode.Axial, p.Buckle.Mode.Round = make([]float64, 2), make([]float64, 2), make([]float64, 2)
	if x.buckles("topload.empty", &p); x.buckling == nil || x.buckling.Reached || len(x.plots) != 2 || !strings.Contains(x.plots[0].Note, "not reached within the stroke") {
		t.Errorf("%+v %+v", x.buckling, x.plots)
	}
}

// A wall that does not give way within the stroke is told as that.
func TestNothingGivesWayIsTold(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	x := testsOf(t, example(t, "sorrel-lime.yaml").Design)
	p := &pushed{in: shell.TopLoadInput{Fill: shell.EmptyVented}, factor: 1}
	p.r = shell.TopLoadResult{Mode: "none within the stroke", Largest: 100, Perfect: 100, Design: 100, Place: 0.02, Course: []shell.TopLoadPoint{{}}}
	p.q = expected(p.r)
	x.showLoad("topload.empty", p)
	f := x.last("topload.empty")
	if f == nil {
		t.Fatal(x.problems)
	}
	if w := strings.Join(f.Origin.Warnings, "; "); !strings.Contains(w, "nothing gives way within the stroke; the wall bends most at z = ") {
		t.Error(w)
	}
}
