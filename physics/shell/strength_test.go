package shell

import (
	"math"
	"testing"
)

// demo is an invented bottle of about half a litre: push-up base, cylinder of
// wall t, shoulder, neck.
func demo(t float64) Bottle { return shaped(t, false) }

// round is the same with a hemispherical base, the round equivalent of feet.
func round(t float64) Bottle { return shaped(t, true) }

func shaped(t float64, hemisphere bool) Bottle {
	side := Ply{Es: 2.8e9, Eh: 4.3e9, Nu: 0.38, Ys: 93e6, Yh: 132e6, Us: 126e6, Uh: 178e6}
	thick := Ply{Es: 2.2e9, Eh: 2.2e9, Nu: 0.38, Ys: 55e6, Yh: 55e6, Us: 74e6, Uh: 74e6}
	var st []Station
	put := func(z, r, wall float64, p Ply) { st = append(st, Station{Z: z, R: r, Wall: wall, Ply: Even(p)}) }
	if hemisphere {
		for i := range 60 {
			s, c := math.Sincos(math.Pi / 2 * float64(i) / 60)
			put(32.5e-3*(1-c)-23e-3, 32.5e-3*s, 1.2e-3-(1.2e-3-t)*float64(i)/60, mix(thick, side, float64(i)/60))
		}
	} else {
		// Push-up: parabola from gate (6 mm) to ring (r 23, z 0), outside.
		for i := range 20 {
			x := float64(i) / 20
			put(6e-3*(1-x*x), 23e-3*x, 1.6e-3-1.2e-3*x, mix(thick, side, 0.4*x))
		}
		// Ring and heel: quarter ellipse-like arcs.
		for i := range 25 {
			a := -math.Pi/2 - 0.35 + (math.Pi/2+0.35)*float64(i)/25
			put(9.5e-3+9.5e-3*math.Sin(a)*1.0, 24.5e-3+8e-3*math.Cos(a), 0.4e-3, mix(thick, side, 0.6))
		}
	}
	for i := range 60 {
		put(9.5e-3+110e-3*float64(i)/60, 32.5e-3, t, side)
	}
	for i := range 50 {
		x := float64(i) / 50
		put(119.5e-3+50e-3*x, 32.5e-3-20e-3*x*x*(3-2*x), t+1.7e-3*math.Pow(x, 6), mix(side, thick, x))
	}
	for i := range 16 {
		put(169.5e-3+15e-3*float64(i)/15, 12.5e-3, 2e-3, thick)
	}
	b := Bottle{Stations: st, Creep: DefaultFindley()}
	if hemisphere {
		b.Stand = 22e-3
	}
	return b
}

func TestDemoAll(t *testing.T) {
	for _, b := range []Bottle{demo(0.28e-3), round(0.28e-3)} {
		all(t, b)
	}
}

func all(t *testing.T, b Bottle) {
	p, err := b.prepare(1)
	if err != nil {
		t.Fatal(err)
	}
	t.Log("elements", len(p.mesh.el), "ring", p.mesh.R[p.ring], p.mesh.Z[p.ring])
	g, err := Grow(GrowInput{Bottle: b, FillDepth: 0.05, Stages: []Stage{{Time: 86400, Pressure: 4e5, Soft: 0.93, Rate: 2}}})
	t.Log(err)
	t.Logf("at once %+v", g.AtOnce)
	t.Logf("end %+v mesh %+v warn %v", g.End, g.Mesh, g.Warnings)
	u, err := Burst(BurstInput{Bottle: b})
	t.Logf("burst %.3f bar at %.1f %s gain %.3f yield %.2f mesh %+v steps %d %v %v", u.Pressure/1e5, u.Place*1e3, u.Why, u.Gain, u.Yield/1e5, u.Mesh, len(u.Course), u.Warnings, err)
	for _, f := range []TopLoadInput{{Fill: EmptyVented}, {Fill: EmptySealed}, {Fill: Filled, Gauge: 2e5, Headspace: 20e-6}} {
		f.Bottle = b
		l, err := TopLoad(f)
		t.Logf("%s: largest %.1f at %.2f mm, stiff %.0f N/mm, buckled %v n=%d at %.1f load %.1f stroke %.2f; design %.1f γ %.3f mode %s place %.1f mesh %+v %d %v %v", f.Fill, l.Largest, l.At*1e3, l.Stiffness/1e3, l.Buckled, l.Buckle.Harmonic, l.Buckle.Place*1e3, l.Buckle.Load, l.BuckleStroke*1e3, l.Design, l.Knockdown.Gamma, l.Mode, l.Place*1e3, l.Mesh, len(l.Course), l.Warnings, err)
	}
	v, err := Vacuum(VacuumInput{Bottle: b, Capped: true})
	t.Logf("vacuum %.3f kPa n=%d at %.1f design %.3f compliance %.4g mesh %+v lin %.3f %v %v", v.Collapse/1e3, v.Harmonic, v.Place*1e3, v.Design/1e3, v.Compliance, v.Mesh, Lowest(v.Linear).Load/1e3, v.Warnings, err)
	q, err := Panels(PanelInput{Bottle: b, Capped: true})
	t.Logf("panels %d %.4g %+v %v %v", len(q.Curve), q.Compliance, q.Mesh, q.Warnings, err)
	pu, perr := PushUp(PushUpInput{GrowInput: GrowInput{Bottle: b, Stages: []Stage{{Time: 86400, Pressure: 4e5, Soft: 0.93, Rate: 2}}}})
	t.Logf("push-up %+v %v", pu, perr)
	r, err := RollOut(RollOutInput{Bottle: b})
	t.Logf("roll out snaps %v %.3f bar touch %.3f clear %.2f path %d last %+v mesh %+v %v %v", r.Snaps, r.Snap/1e5, r.Touch/1e5, r.Clear*1e3, len(r.Path), r.Path[len(r.Path)-1], r.Mesh, r.Warnings, err)
}

func BenchmarkStage(b *testing.B) {
	for _, q := range []struct {
		name string
		run  func(Bottle) error
	}{
		{"grow", func(b Bottle) error {
			_, err := Grow(GrowInput{Bottle: b, FillDepth: 0.05, Stages: []Stage{{Time: 86400, Pressure: 4e5, Soft: 0.93, Rate: 2}}})
			return err
		}},
		{"burst", func(b Bottle) error { _, err := Burst(BurstInput{Bottle: b}); return err }},
		{"vented", func(b Bottle) error { _, err := TopLoad(TopLoadInput{Bottle: b, Fill: EmptyVented}); return err }},
		{"filled", func(b Bottle) error {
			_, err := TopLoad(TopLoadInput{Bottle: b, Fill: Filled, Gauge: 2e5, Headspace: 2e-5})
			return err
		}},
		{"vacuum", func(b Bottle) error { _, err := Vacuum(VacuumInput{Bottle: b, Capped: true}); return err }},
		{"rollout", func(b Bottle) error {
			b = demo(0.28e-3)
			b.Quick = true
			_, err := RollOut(RollOutInput{Bottle: b})
			return err
		}},
	} {
		b.Run(q.name, func(b *testing.B) {
			d := round(0.28e-3)
			d.Quick = true
			for b.Loop() {
				if err := q.run(d); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
