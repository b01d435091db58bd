package run

import (
	"math"
	"slices"
	"testing"

	"costrel/figure"
	"costrel/project/design"
)

// A wall that did not blow takes away what needs it, and no more: dropped packs,
// glass in the same shape and the pressure at altitude are still there.
func TestStrengthWithoutBlownWall(t *testing.T) {
	for file, want := range map[string][]string{
		"sorrel-lime.yaml": {"altitude.pressure", "drop.height.half", "material.glass.mass", "material.glass.wall"},
		"wrenhollow.yaml":  {"altitude.growth", "altitude.pressure", "drop.height.half"},
	} {
		d := example(t, file).Design.Clone()
		d.Lab.Drops = nil
		for i := range 20 {
			d.Lab.Drops = append(d.Lab.Drops, design.DropRow{Height: 1.7 + 0.1*float64(i%2), Failed: i % 2})
		}
		w := work{ctx: t.Context(), until: "pressure"} // the preview blows nothing
		e := runStage(strengthStage, d, work{ctx: t.Context(), full: true}, evaluate(d, w, NewCache(64)))
		if e.err == nil {
			t.Fatal("a preview wall counts as blown")
		}
		var keys []string
		for _, f := range e.figures {
			keys = append(keys, f.Key)
		}
		if slices.Sort(keys); !slices.Equal(keys, want) {
			t.Errorf("%s: %v, want %v", file, keys, want)
		}
		if len(e.figures)+len(e.problems) != len(strengthStage.keys) {
			t.Errorf("%s: %d figures and %d reasons for %d keys: %+v", file, len(e.figures), len(e.problems), len(strengthStage.keys), e.problems)
		}
		i := slices.IndexFunc(e.figures, func(f figure.Figure) bool { return f.Key == "altitude.pressure" })
		at := map[string]float64{}
		for _, in := range e.figures[i].Origin.Inputs {
			at[in.Symbol] = in.Value
		}
		if p := at["p"] + at["p_0"] - at["p_1"] - at["Δp_s"]; math.Abs(p-e.figures[i].Value) > 1 {
			t.Errorf("%s: %g Pa at altitude, by hand %g", file, e.figures[i].Value, p)
		}
		if f := e.figures[i]; !(f.Lo < f.Value && f.Value < f.Hi) {
			t.Errorf("%s: %g Pa at altitude, band %g .. %g", file, f.Value, f.Lo, f.Hi)
		}
	}
}

// A mild drink leaves glass at the least wall that it is blown to, and that carries
// the band of wall and mass.
func TestGlassAtItsLeastWall(t *testing.T) {
	d := example(t, "ravensholt-new.yaml").Design.Clone()
	mild := *d.Drink.Carbonation / 3
	d.Drink.Carbonation = &mild
	e := runStage(strengthStage, d, work{ctx: t.Context(), full: true}, evaluate(d, work{ctx: t.Context(), until: "pressure"}, NewCache(64)))
	for _, key := range []string{"material.glass.wall", "material.glass.mass"} {
		i := slices.IndexFunc(e.figures, func(f figure.Figure) bool { return f.Key == key })
		f := e.figures[i]
		if math.Abs(f.Lo/f.Value-glassLeastLow/glassLeast) > 1e-9 || math.Abs(f.Hi/f.Value-glassLeastHigh/glassLeast) > 1e-9 || len(f.Effects) != 1 {
			t.Errorf("%s: %g, band %g .. %g by %+v", key, f.Value, f.Lo, f.Hi, f.Effects)
		}
		if key == "material.glass.wall" && f.Value != glassLeast {
			t.Errorf("a wall of %g m", f.Value)
		}
	}
}
