package shell

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Any bottle of the family: each test gives finite numbers or an error that
// names itself, and what holds more is stronger.
func TestAnyBottle(t *testing.T) {
	if testing.Short() {
		t.Skip("many bottles")
	}
	bottles := rapid.Custom(func(t *rapid.T) anyBottle {
		wall := rapid.Float64Range(0.08e-3, 0.6e-3).Draw(t, "wall")
		q := anyBottle{}
		b := shaped(wall, rapid.Bool().Draw(t, "hemisphere"))
		b.Quick = true
		scale := rapid.Float64Range(0.5, 2).Draw(t, "size")
		uneven := rapid.Float64Range(0, 0.3).Draw(t, "uneven")
		stiff := rapid.Float64Range(0.2, 3).Draw(t, "stiff")
		for i := range b.Stations {
			s := &b.Stations[i]
			s.R, s.Z = s.R*scale, s.Z*scale
			s.Wall *= 1 + uneven*math.Sin(7*float64(i))
			for k := range s.Ply {
				s.Ply[k].Es, s.Ply[k].Eh = s.Ply[k].Es*stiff, s.Ply[k].Eh*stiff
			}
		}
		b.Stand *= scale
		q.p = rapid.Float64Range(1e4, 8e5).Draw(t, "pressure")
		q.b, q.scale = b, scale
		return q
	})
	for seed := range 3 {
		q := bottles.Example(seed)
		b, p, scale := q.b, q.p, q.scale
		check := func(what string, v any, err error) {
			if err != nil {
				if !strings.HasPrefix(err.Error(), "shell: ") {
					t.Fatalf("%s: %v", what, err)
				}
				return
			}
			if _, err := json.Marshal(v); err != nil { // refuses NaN and Inf
				t.Fatalf("%s: %v", what, err)
			}
		}
		g, err := Grow(GrowInput{Bottle: b, FillDepth: 0.04 * scale, Stages: []Stage{{Time: 86400, Pressure: p, Rate: 2}}})
		check("growth", g, err)
		if err == nil && g.End.Volume < g.AtOnce.Volume-1e-6 {
			t.Fatalf("creep shrinks: %g to %g", g.AtOnce.Volume, g.End.Volume)
		}
		u, err := Burst(BurstInput{Bottle: b})
		check("burst", u, err)
		for _, in := range []TopLoadInput{{Fill: EmptyVented}, {Fill: EmptySealed}, {Fill: Filled, Gauge: p / 4, Headspace: 2e-5}} {
			in.Bottle, in.Steps = b, 8
			l, err := TopLoad(in)
			check(string(in.Fill), l, err)
			if err == nil && (l.Design > l.Largest*(1+1e-9) || l.Largest <= 0) {
				t.Fatalf("%s: design %g, largest %g", in.Fill, l.Design, l.Largest)
			}
		}
		v, err := Vacuum(VacuumInput{Bottle: b, Capped: true})
		check("vacuum", v, err)
		r, err := RollOut(RollOutInput{Bottle: b, Steps: 60})
		check("roll-out", r, err)
	}
}

type anyBottle struct {
	b        Bottle
	p, scale float64
}
