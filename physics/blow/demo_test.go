package blow

import (
	"math"
	"testing"

	"costrel/unit"
)

// sorrel is the 1.75 L carbonated demo bottle with its process card. The card
// gives no orifices and no start of the high stage; they are: 37 g/s choked
// for the pre-blow (the largest flow of published free-blow trials, from
// memory), 80 mm² for the high stage, which begins 40 ms after the rod stands.
func sorrel(t testing.TB) Case {
	c := DefaultCase()
	c.Preform = Straight(19.6e-3, 3.6e-3, 91.1e-3, 2.8e-3)
	c.Heat.S, c.Heat.X = []float64{0}, []float64{0, 1}
	c.Heat.T = [][]float64{{273.15 + 103, 273.15 + 107}}
	rows := [][2]float64{
		{5, 0}, {0, 25}, {5, 33.8}, {14, 41.4}, {26, 46.8}, {38, 49.8}, {48, 50.5}, {60, 50.5}, {64, 49.5}, {178, 49.5}, {182, 50.5},
		{190, 50.5}, {205, 49.5}, {220, 46.4}, {234, 41}, {246, 34.4}, {256, 27.8}, {266, 21.4}, {275, 16.6}, {282, 13.8}, {288, 13.1},
	}
	var z, r []float64
	for _, p := range rows {
		z, r = append(z, p[0]/1e3), append(r, p[1]/1e3)
	}
	m, err := FromStanding(z, r, 0.288, Zone{From: 0, T: unit.Celsius(12)}, Zone{From: 0.228, T: unit.Celsius(10)})
	if err != nil {
		t.Fatal(err)
	}
	c.Mould = m
	rec := &c.Recipe
	rec.Rod = Rod{Speed: 1.5, Stop: 0.288 - 0.005 - 0.0018, Radius: 7e-3}
	rodEnd := (rec.Rod.Stop - (91.1e-3 + 11.6e-3 - 1.4e-3)) / 1.5
	rec.Pre = Stage{Pressure: 7e5, Area: 19.7e-6, Discharge: 1, Start: Start{ByRod: true, Travel: 17e-3}}
	rec.High = Stage{Pressure: 34e5, Area: 80e-6, Discharge: 1, Start: Start{Time: rodEnd + 0.040}}
	rec.DeadVolume = 270e-6
	rec.VentArea = 80e-6
	rec.Hold, rec.Exhaust = 0.95, 0.27
	return c
}

// sorrelWall is the wall measured on the bottle: height above the standing
// plane [mm], mean of four quadrants [mm].
var sorrelWall = [][2]float64{
	{10, 0.302}, {27, 0.267}, {50, 0.301}, {72, 0.285}, {96, 0.277}, {121, 0.276}, {146, 0.279}, {170, 0.287},
	{197, 0.288}, {220, 0.282}, {242, 0.303}, {262, 0.360}, {280, 0.926},
}

func TestSorrel(t *testing.T) {
	c := sorrel(t)
	r := run(t, c)
	t.Logf("filled %v at %.1f ms, air %.1f mL, steps %d, iterations %d, rejected %d", r.Filled, r.FillTime*1e3, r.Volume*1e6, r.Steps, r.Iterations, r.Rejected)
	t.Logf("pre-blow peak %.2f bar at %.1f ms, rod ends %.1f ms, peak rod %.0f N, high at %.1f ms", r.PeakPre/1e5, r.PeakPreAt*1e3, r.RodEnd*1e3, r.PeakRod, c.startOf(c.Recipe.High.Start)*1e3)
	for _, ms := range []float64{20, 40, 60, 80, 100, 120, 140, 160, 165, 170, 180, 200} {
		g := func(f func(Moment) float64) float64 { return at(r, ms/1e3, f) }
		t.Logf("  %3.0f ms: p %.2f bar V %.0f mL contact %.2f widest %.1f mm deepest %.1f rod %.0f N", ms, g(func(m Moment) float64 { return m.Pressure / 1e5 }), g(func(m Moment) float64 { return m.Volume * 1e6 }),
			g(func(m Moment) float64 { return m.Contact }), g(func(m Moment) float64 { return m.Widest * 1e3 }), g(func(m Moment) float64 { return m.Deepest * 1e3 }), g(func(m Moment) float64 { return m.RodForce }))
	}
	for _, w := range sorrelWall {
		h, _ := r.WallAt(0.288 - w[0]/1e3)
		h *= 1e3
		t.Logf("  height %3.0f mm: %.3f mm, measured %.3f (%+.0f %%)", w[0], h, w[1], 100*(h/w[1]-1))
	}
	t.Logf("shoulder %.2f g, panel %.2f g, base %.2f g, all %.2f g", r.MassBetween(0, 0.098)*1e3, r.MassBetween(0.098, 0.228)*1e3, r.MassBetween(0.228, 1)*1e3, r.Mass*1e3)
	for i := 0; i < len(r.Places); i += 4 {
		p := r.Places[i]
		t.Logf("  z %.1f r %.1f h %.3f axial %.2f hoop %.2f in %.2f out %.2f net %.2f blowT %.1f T %.1f X %.3f touch %.1f gap %.2f rate %.0f slack %.2f", p.Z*1e3, p.R*1e3, p.Wall*1e3, p.Axial, p.Hoop, p.HoopIn, p.HoopOut, p.Net, p.BlowT-273.15, p.T-273.15, p.X, p.Touched*1e3, p.Gap*1e3, p.Rate, p.Slack)
	}
	for _, f := range r.Flags {
		t.Logf("flag %s: %s", f.Kind, f.Text)
	}
	t.Logf("balance %+v", r.Balance)
	t.Logf("warnings %q", r.Warnings)
	if math.IsNaN(r.Mass) {
		t.Fail()
	}
}
